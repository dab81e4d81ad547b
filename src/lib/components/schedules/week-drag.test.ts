import { describe, expect, test } from 'vitest';
import { fullWeek } from '$lib/charts/week-moves';
import { dragged } from './week-drag';

const base = fullWeek({ mon: ['07:00-19:00'], sun: ['22:00-06:00'] });
const at = (day: number, minute: number) => ({ day, minute });
const monday = { day: 0, place: 0 };

describe('dragging on a week sheet', () => {
	test('empty paper: a new stretch, whichever way it is drawn', () => {
		const expected = ['08:00-12:00'];
		expect(dragged({ origin: at(2, 481), base }, at(2, 722), 15).wed).toEqual(expected);
		expect(dragged({ origin: at(2, 722), base }, at(2, 481), 15).wed).toEqual(expected);
	});

	test('empty paper into the next column: a night', () => {
		expect(dragged({ origin: at(2, 1320), base }, at(3, 360), 15).wed).toEqual(['22:00-06:00']);
	});

	test('a click draws nothing', () => {
		expect(dragged({ origin: at(2, 500), base }, at(2, 503), 15)).toBe(base);
	});

	test('the whole stretch goes with the pointer, in time and to another day', () => {
		const week = dragged({ origin: at(0, 600), base, held: monday, grip: 'whole' }, at(3, 662), 15);
		expect(week.mon).toEqual([]);
		expect(week.thu).toEqual(['08:00-20:00']);
	});

	test('an end that is dragged into the next column runs past midnight', () => {
		expect(dragged({ origin: at(0, 1140), base, held: monday, grip: 'end' }, at(1, 120), 15).mon).toEqual([
			'07:00-02:00'
		]);
	});

	test('an end carried from Sunday into Monday is dragged in Monday’s column', () => {
		const drag = { origin: at(0, 360), base, held: { day: 6, place: 0 }, grip: 'end' as const };
		expect(dragged(drag, at(0, 300), 15).sun).toEqual(['22:00-05:00']);
	});

	test('an end dragged to the left of its day stays', () => {
		const drag = {
			origin: at(2, 720),
			base: fullWeek({ wed: ['08:00-12:00'] }),
			held: { day: 2, place: 0 },
			grip: 'end' as const
		};
		expect(dragged(drag, at(1, 720), 15).wed).toEqual(['08:00-12:00']);
	});

	test('a start snaps to the step and stays in its day', () => {
		expect(dragged({ origin: at(0, 420), base, held: monday, grip: 'start' }, at(0, 367), 15).mon).toEqual([
			'06:00-19:00'
		]);
	});
});
