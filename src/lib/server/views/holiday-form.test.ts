import { expect, test } from 'vitest';
import { smallSite } from '../../../../tests/support/small-site';
import { wasIn } from '$lib/server/http/was';
import { coveredUntilOf, holidayIn, holidaysIn } from './holiday-form';

test('an entry keeps what the form does not show, and loses a name that was emptied', () => {
	const form = new FormData();
	form.set('date', ' 2027-05-31 ');
	form.set('kind', 'worked');
	expect(holidayIn(form, { date: '2027-05-30', name: 'Old', kind: 'public', note: 1 })).toEqual({
		date: '2027-05-31',
		kind: 'worked',
		note: 1
	});
});

test('only ticked days are taken, each with its own kind', () => {
	const form = new FormData();
	form.append('day', '2027-05-31');
	form.append('day', '2027-07-05');
	for (const date of ['2027-05-31', '2027-06-18', '2027-07-05']) {
		form.set(`name.${date}`, `Day ${date}`);
		form.set(`kind.${date}`, date < '2027-07' ? 'public' : 'worked');
	}
	expect(holidaysIn(form)).toEqual([
		{ date: '2027-05-31', name: 'Day 2027-05-31', kind: 'public' },
		{ date: '2027-07-05', name: 'Day 2027-07-05', kind: 'worked' }
	]);
});

test('a list that was complete for longer stays so', () => {
	expect(coveredUntilOf(smallSite(), '2027-06-30')).toBe('2027-12-31');
	expect(coveredUntilOf(smallSite(), '2028-12-31')).toBe('2028-12-31');
	expect(coveredUntilOf(smallSite({ holidays: null }), '2027-06-30')).toBe('2027-06-30');
});

test('what was seen is passed on, also when it is no JSON, so that it is refused', () => {
	const form = new FormData();
	expect(wasIn(form)).toEqual({});
	form.set('was', '{"date":"2027-05-31"}');
	expect(wasIn(form)).toEqual({ was: { date: '2027-05-31' } });
	form.set('was', '{');
	expect(wasIn(form)).toEqual({ was: '{' });
});
