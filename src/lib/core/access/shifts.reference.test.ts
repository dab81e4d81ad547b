import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type EpochDay, dateOf, epochDayOf, localDate, plusDays, weekdayOf } from '../calendar/local-date';
import { Zone } from '../calendar/zone';
import { readyPattern, shiftsOfPattern } from './shifts';

const start = '2027-01-04';
const D = '07:00-19:00';
const N = '19:00-07:00';

/** A pattern from the stretches of its days in turn; null is a day off. */
function patternOf(days: readonly (string | null)[], anchor = start) {
	return readyPattern({
		id: 'p',
		name: null,
		anchor: localDate(anchor),
		cycleDays: days.length,
		shifts: days.flatMap((at, day) => (at === null ? [] : [{ day, at }])),
		worksOn: []
	});
}

/** The shifts that start in some days from a date on, in a zone without clock changes. */
function shiftsIn(pattern: ReturnType<typeof patternOf>, days: number, from = start) {
	const first = epochDayOf(localDate(from));
	const last = plusDays(first, days - 1);
	return shiftsOfPattern(pattern, first, last, new Map(), new Zone('UTC', first, last)).map((shift) => ({
		date: dateOf(shift.day),
		text: shift.stretch.text,
		hours: (shift.to - shift.from) / 3600
	}));
}

function repeat<T>(count: number, ...items: T[]): T[] {
	return Array.from({ length: count }, () => items).flat();
}

const off = null;
const duPont = [
	...repeat(4, N),
	...repeat(3, off),
	...repeat(3, D),
	off,
	...repeat(3, N),
	...repeat(3, off),
	...repeat(4, D),
	...repeat(7, off)
];
const twoTwoThree = (shift: string) => [
	shift,
	shift,
	off,
	off,
	shift,
	shift,
	shift,
	off,
	off,
	shift,
	shift,
	off,
	off,
	off
];
const fourOnFourOff = [...repeat(4, D), ...repeat(4, off)];

describe('shift patterns: hours per cycle and on average a week (library point85/Shift, assertions of its tests)', () => {
	it.each([
		['DuPont', duPont, 28, 168, 42],
		['Panama, or 2-2-3', [...repeat(2, ...twoTwoThree(D)), ...repeat(2, ...twoTwoThree(N))], 56, 336, 42],
		['DNO: day, night, off', [D, N, off], 3, 24, 56],
		['7 on, 7 off', [...repeat(7, D), ...repeat(7, off)], 14, 84, 42],
		['4 on, 4 off', fourOnFourOff, 8, 48, 42],
		[
			'three teams of 24 hours: one on, one off, twice; one on, four off',
			['07:00-07:00', off, '07:00-07:00', off, '07:00-07:00', ...repeat(4, off)],
			9,
			72,
			56
		],
		['interns: 14, 15.5 and 14 hours, off', ['07:00-21:00', '07:00-22:30', '07:00-21:00', off], 4, 43.5, 76.125]
	])('%s', (_name, days, cycleDays, hoursPerCycle, hoursPerWeek) => {
		expect(days).toHaveLength(cycleDays);
		const pattern = patternOf(days);
		// The same in whichever cycle, also in those before the anchor.
		for (const cycle of [0, 1, -1, 5]) {
			const from = dateOf(plusDays(epochDayOf(localDate(start)), cycle * cycleDays));
			const hours = shiftsIn(pattern, cycleDays, from).reduce((sum, shift) => sum + shift.hours, 0);
			expect(hours).toBe(hoursPerCycle);
			expect((hours * 7) / cycleDays).toBeCloseTo(hoursPerWeek, 10);
		}
	});

	it('V-SHIFT-01: DuPont has seven nights, seven days and fourteen days off', () => {
		const shifts = shiftsIn(patternOf(duPont), 28);
		expect(shifts.filter(({ text }) => text === N)).toHaveLength(7);
		expect(shifts.filter(({ text }) => text === D)).toHaveLength(7);
		expect(28 - new Set(shifts.map(({ date }) => date)).size).toBe(14);
	});

	it('V-SHIFT-02: DNO, day on 31 October 2016, night on 1 November, off, day on 3 November; the second team one ahead', () => {
		const team1 = shiftsIn(patternOf([D, N, off], '2016-10-31'), 4, '2016-10-31');
		expect(team1.map(({ date, text }) => `${date} ${text}`)).toEqual([
			`2016-10-31 ${D}`,
			`2016-11-01 ${N}`,
			`2016-11-03 ${D}`
		]);
		const team2 = shiftsIn(patternOf([D, N, off], '2016-10-30'), 1, '2016-10-31');
		expect(team2.map(({ date, text }) => `${date} ${text}`)).toEqual([`2016-10-31 ${N}`]);
	});

	it('V-SHIFT-03: a night belongs to the day on which it starts; the day after is off, and has seven hours of it', () => {
		const friday = epochDayOf(localDate('2027-01-08'));
		const zone = new Zone('UTC', friday, plusDays(friday, 2));
		const pattern = patternOf([N, off], '2027-01-08');
		const shifts = shiftsOfPattern(pattern, friday, plusDays(friday, 1), new Map(), zone);
		expect(shifts.map(({ day }) => weekdayOf(day))).toEqual(['fri']);
		const saturday = zone.midnightOf(plusDays(friday, 1));
		expect((shifts[0]?.to ?? 0) - saturday).toBe(7 * 3600);
	});

	it('V-SHIFT-04: 4 on, 4 off comes round to the same weekdays after 56 days and not before', () => {
		const weekdaysOf = (week: number): string =>
			shiftsIn(patternOf(fourOnFourOff), 7, dateOf(plusDays(epochDayOf(localDate(start)), week * 7)))
				.map(({ date }) => weekdayOf(epochDayOf(date)))
				.join();
		const first = weekdaysOf(0);
		expect([1, 2, 3, 4, 5, 6, 7].map(weekdaysOf)).not.toContain(first);
		expect(weekdaysOf(8)).toBe(first);
	});
});

describe('RFC 5545, section 3.8.5.3: every other week is a cycle of 14 days; text and library ical.js', () => {
	/** The first instances of a recurrence, as the independent library gives them. */
	function instances(from: string, rule: string, count: number): string[] {
		const iterator = ICAL.Recur.fromString(rule).iterator(ICAL.Time.fromDateTimeString(`${from}T09:00:00`));
		// Its types hide that there is none after the last.
		const findNext = (): ICAL.Time | null => iterator.next();
		const list: string[] = [];
		for (let next = findNext(); list.length < count && next; next = findNext()) {
			list.push(next.toString().slice(0, 10));
		}
		return list;
	}

	it.each([
		{
			id: 'V-RR-04',
			rule: 'FREQ=WEEKLY;INTERVAL=2;WKST=SU',
			from: '1997-09-02',
			weekStart: '1997-08-31',
			days: [2],
			expected:
				'97-09-02 97-09-16 97-09-30 97-10-14 97-10-28 97-11-11 97-11-25 97-12-09 97-12-23 98-01-06 98-01-20 98-02-03 98-02-17'
		},
		{
			id: 'V-RR-06',
			rule: 'FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000;WKST=SU;BYDAY=MO,WE,FR',
			from: '1997-09-01',
			weekStart: '1997-08-31',
			days: [1, 3, 5],
			expected:
				'97-09-01 97-09-03 97-09-05 97-09-15 97-09-17 97-09-19 97-09-29 97-10-01 97-10-03 97-10-13 97-10-15 97-10-17 97-10-27 ' +
				'97-10-29 97-10-31 97-11-10 97-11-12 97-11-14 97-11-24 97-11-26 97-11-28 97-12-08 97-12-10 97-12-12 97-12-22'
		},
		{
			id: 'V-RR-07',
			rule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH',
			from: '1997-09-02',
			weekStart: '1997-08-31',
			days: [2, 4],
			expected: '97-09-02 97-09-04 97-09-16 97-09-18 97-09-30 97-10-02 97-10-14 97-10-16'
		},
		{
			id: 'V-RR-08',
			rule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO',
			from: '1997-08-05',
			weekStart: '1997-08-04',
			days: [1, 6],
			expected: '97-08-05 97-08-10 97-08-19 97-08-24'
		},
		{
			id: 'V-RR-09',
			rule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU',
			from: '1997-08-05',
			weekStart: '1997-08-03',
			days: [0, 2],
			expected: '97-08-05 97-08-17 97-08-19 97-08-31'
		}
	])('$id: $rule', ({ rule, from, weekStart, days, expected }) => {
		const cycle = Array.from({ length: 14 }, (_, day) => (days.includes(day) ? '09:00-10:00' : off));
		const dates = expected.split(' ').map((date) => `19${date}`);
		const count = (epochDayOf(localDate(dates.at(-1) ?? from)) - epochDayOf(localDate(from)) + 1) as EpochDay;
		const shifts = shiftsIn(patternOf(cycle, weekStart), count, from);
		expect(shifts.map(({ date }) => date)).toEqual(dates);
		expect(instances(from, rule, dates.length)).toEqual(dates);
	});
});
