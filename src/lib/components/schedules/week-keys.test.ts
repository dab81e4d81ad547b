import { describe, expect, test } from 'vitest';
import { weekBars } from '$lib/charts/week';
import { fullWeek } from '$lib/charts/week-moves';
import { keyed, withNewStretch } from './week-keys';

const week = fullWeek({ mon: ['07:00-19:00'], sun: ['22:00-06:00'] });
const monday = { day: 0, place: 0 };
const press = (key: string, shiftKey = false, altKey = false) => keyed(week, monday, { key, shiftKey, altKey }, 15);

describe('keys on a stretch', () => {
	test('arrows move it, with shift its end, with alt its start', () => {
		expect(press('ArrowDown')?.week.mon).toEqual(['07:15-19:15']);
		expect(press('ArrowUp', true)?.week.mon).toEqual(['07:00-18:45']);
		expect(press('ArrowUp', false, true)?.week.mon).toEqual(['06:45-19:00']);
	});

	test('left and right change the day and keep hold of it; the week has ends', () => {
		expect(press('ArrowRight')).toEqual({
			week: { ...week, mon: [], tue: ['07:00-19:00'] },
			held: { day: 1, place: 0 }
		});
		expect(press('ArrowLeft')).toEqual({ week, held: monday });
	});

	test('delete lets go of it', () => {
		expect(press('Delete')).toEqual({ week: { ...week, mon: [] } });
	});

	test('other keys do nothing', () => {
		expect(press('Tab')).toBeUndefined();
	});
});

test('a new stretch takes working hours, or the hour after what is there, also after a night carried in', () => {
	const added = (day: number) => withNewStretch(week, weekBars(week), day).week;
	expect(added(1).tue).toEqual(['08:00-17:00']);
	expect(added(0).mon).toEqual(['07:00-19:00', '19:00-20:00']);
	expect(added(6).sun).toEqual(['22:00-06:00', '00:00-01:00']);
	const night = fullWeek({ mon: ['22:00-06:00'] });
	expect(withNewStretch(night, weekBars(night), 1).week.tue).toEqual(['06:00-07:00']);
});
