import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import type { LocalDate } from '$lib/core/calendar/local-date';
import { holidayYear } from './holiday-year';

const on = (date: string) => date as LocalDate;
const today = on('2026-11-25');
const rollout = rolloutOf({
	site: { name: 'Invented site', timeZone: 'Europe/London', country: 'GB', region: 'ENG' },
	horizon: { from: on('2027-03-01'), until: on('2036-12-31') },
	schedules: [
		{
			id: 'days',
			week: { mon: ['07:00-19:00'] },
			holidays: { public: 'normal', shutdown: 'closed', half: ['08:00-12:00'], none: [] },
			until: on('2027-12-26')
		},
		{ id: 'silent', week: { mon: ['07:00-19:00'] } }
	],
	holidays: {
		coveredUntil: on('2027-12-31'),
		days: [
			{ date: on('2027-03-29'), name: 'Easter Monday', kind: 'public' },
			{ date: on('2027-03-26'), name: 'Good Friday', kind: 'public' },
			{ date: on('2027-07-01'), name: 'Works closed', kind: 'shutdown' },
			{ date: on('2027-07-01'), name: 'Second entry', kind: 'public' },
			{ date: on('2027-07-02'), kind: 'half' },
			{ date: on('2027-07-05'), kind: 'none' },
			{ date: on('2027-12-27'), name: 'Christmas Day, substitute', kind: 'public' },
			{ date: on('2027-01-01'), name: 'before the horizon', kind: 'public' }
		]
	}
});

describe('a year of the holidays', () => {
	test('is the one asked for, else that of today, else the first; ten years stay pages of one', () => {
		expect(holidayYear(rollout, '2030', today).range).toEqual({ from: '2030-01-01', until: '2030-12-31' });
		expect(holidayYear(rollout, null, today).range).toEqual({ from: '2027-03-01', until: '2027-12-31' });
		expect(holidayYear(rollout, '1999', on('2031-05-05')).year).toBe(2031);
		expect(holidayYear(rollout, null, today).years).toHaveLength(10);
	});

	test('holds its dates in order, each once, and what each schedule really does on it', () => {
		const { dates, doings } = holidayYear(rollout, '2027', today);
		expect(dates.map(({ label, name }) => `${label} ${name}`)).toEqual([
			'26 Mar Good Friday',
			'29 Mar Easter Monday',
			'1 Jul Works closed',
			'2 Jul half',
			'5 Jul none',
			'27 Dec Christmas Day, substitute'
		]);
		expect(doings[0]).toEqual([
			{ doing: 'normal', words: 'as usual: no hours' },
			{ doing: 'normal', words: 'as usual: 07:00–19:00' },
			{ doing: 'closed', words: 'closed' },
			{ doing: 'own', words: '08:00–12:00' },
			{ doing: 'closed', words: 'closed' },
			{ doing: 'not-valid', words: 'closed: the schedule is not valid then' }
		]);
		expect(new Set(doings[1]?.map(({ doing }) => doing))).toEqual(new Set(['undecided']));
	});

	// gov.uk/bank-holidays, England and Wales: in 2027 Early May 3 May, Spring 31 May, Summer 30 August, Boxing Day (substitute) 28 December.
	test('tells which official days are not listed', () => {
		expect(holidayYear(rollout, '2027', today).missing.map(({ date }) => date)).toEqual([
			'2027-05-03',
			'2027-05-31',
			'2027-08-30',
			'2027-12-28'
		]);
	});
});
