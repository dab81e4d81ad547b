import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type Weekday, dateOf, epochDayOf, localDate, plusDays, weekdays } from '../calendar/local-date';
import { contains, lengthOf } from '../calendar/spans';
import { type Instant, Zone } from '../calendar/zone';
import type { Holiday, Schedule, Treatment } from '../document/schema';
import { dayRuleOf, openSpansOf, openingsOn, readySchedule } from './schedule-days';

type Hours = Partial<Record<Weekday, string[]>>;

function ready(hours: Hours, limits: { from?: string; until?: string } = {}, holidays: Record<string, Treatment> = {}) {
	const schedule: Schedule = {
		id: 's',
		name: null,
		from: limits.from === undefined ? null : localDate(limits.from),
		until: limits.until === undefined ? null : localDate(limits.until),
		week: { mon: [], tue: [], wed: [], thu: [], fri: [], sat: [], sun: [], ...hours },
		holidays
	};
	return readySchedule(schedule);
}

const workdays: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri'];

function on(days: readonly Weekday[], ...stretches: string[]): Hours {
	return Object.fromEntries(days.map((day) => [day, stretches]));
}

function holidayMap(kindByDate: Record<string, string>): ReadonlyMap<ReturnType<typeof epochDayOf>, Holiday> {
	return new Map(
		Object.entries(kindByDate).map(([date, kind]) => [
			epochDayOf(localDate(date)),
			{ date: localDate(date), name: null, kind }
		])
	);
}

/** What is open between two dates, in a zone (one without clock changes where none is said). */
function openOf(
	schedule: ReturnType<typeof ready>,
	from: string,
	until: string,
	holidays = holidayMap({}),
	name = 'UTC'
) {
	const [first, last] = [epochDayOf(localDate(from)), epochDayOf(localDate(until))];
	const zone = new Zone(name, first, last);
	const starts = [];
	for (let day = first; day <= last; day = plusDays(day, 1)) {
		starts.push(...openingsOn(schedule, day, holidays, zone).map((opening) => zone.textOf(opening.from)));
	}
	const spans = openSpansOf(schedule, first, last, holidays, zone);
	const isOpen = (at: string): boolean => contains(spans, Date.parse(`${at}Z`) / 1000);
	return { starts, spans, isOpen, hours: lengthOf(spans) / 3600 };
}

/** The first instances of a recurrence as the independent iCalendar library gives them, as local date-times. */
function instances(start: string, rule: string, count: number): string[] {
	const iterator = ICAL.Recur.fromString(rule).iterator(ICAL.Time.fromDateTimeString(start));
	// Its types hide that there is none after the last.
	const findNext = (): ICAL.Time | null => iterator.next();
	const list: string[] = [];
	for (let next = findNext(); list.length < count && next; next = findNext()) list.push(next.toString());
	return list;
}

describe('RFC 5545, section 3.8.5.3: weekly rules, against the text and against the library ical.js', () => {
	const newYork = 'America/New_York';
	const dates = (year: number, text: string) => text.split(' ').map((monthAndDay) => `${year}-${monthAndDay}`);

	it('V-RR-02: weekly on Tuesday, ten times, over the end of daylight time', () => {
		const { starts } = openOf(ready(on(['tue'], '09:00-10:00')), '1997-09-02', '1997-11-04', holidayMap({}), newYork);
		const expected = dates(1997, '09-02 09-09 09-16 09-23 09-30 10-07 10-14 10-21 10-28 11-04');
		expect(starts).toEqual(expected.map((date) => `${date}T09:00:00${date < '1997-10-26' ? '-04:00' : '-05:00'}`));
		expect(starts.map((at) => at.slice(0, 19))).toEqual(instances('1997-09-02T09:00:00', 'FREQ=WEEKLY;COUNT=10', 20));
	});

	it('V-RR-03: until 24 December, midnight in UTC: the last is 23 December', () => {
		const schedule = ready(on(['tue'], '09:00-10:00'), { until: '1997-12-23' });
		const { starts } = openOf(schedule, '1997-09-02', '1998-01-31');
		expect(starts.at(-1)).toBe('1997-12-23T09:00:00+00:00');
		expect(starts.map((at) => at.slice(0, 19))).toEqual(
			instances('1997-09-02T09:00:00', 'FREQ=WEEKLY;UNTIL=19971224T000000', 40)
		);
	});

	it('V-RR-05: weekly on Tuesday and Thursday, five weeks', () => {
		const { starts } = openOf(ready(on(['tue', 'thu'], '09:00-10:00')), '1997-09-02', '1997-10-02');
		const expected = dates(1997, '09-02 09-04 09-09 09-11 09-16 09-18 09-23 09-25 09-30 10-02');
		expect(starts.map((at) => at.slice(0, 10))).toEqual(expected);
		expect(starts.map((at) => at.slice(0, 19))).toEqual(
			instances('1997-09-02T09:00:00', 'FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH', 20)
		);
	});

	it('any weekdays, from any date on', () => {
		const codes: Record<Weekday, string> = {
			mon: 'MO',
			tue: 'TU',
			wed: 'WE',
			thu: 'TH',
			fri: 'FR',
			sat: 'SA',
			sun: 'SU'
		};
		fc.assert(
			fc.property(
				fc.subarray([...weekdays], { minLength: 1 }),
				fc.integer({ min: epochDayOf(localDate('1970-01-01')), max: epochDayOf(localDate('2037-01-01')) }),
				(days, first) => {
					const from = dateOf(first as ReturnType<typeof epochDayOf>);
					const until = dateOf(plusDays(epochDayOf(from), 59));
					const { starts } = openOf(ready(on(days, '22:15-06:00')), from, until);
					const rule = `FREQ=WEEKLY;BYDAY=${days.map((day) => codes[day]).join()};UNTIL=${until.replaceAll('-', '')}T235959`;
					// A start that is not of the rule would be counted as an instance: begin at the first day that is.
					const start = starts[0]?.slice(0, 19) ?? '';
					expect(starts.map((at) => at.slice(0, 19))).toEqual(instances(start, rule, 100));
				}
			),
			{ numRuns: 50 }
		);
	});
});

describe('ONVIF Schedule Service Specification 18.06: worked examples', () => {
	it('V-SCH-01: all day, every day: 168 hours a week and no gap', () => {
		const { spans, hours } = openOf(ready(on(weekdays, '00:00-24:00')), '1970-01-05', '1970-01-11');
		expect([spans.length, hours]).toEqual([1, 168]);
	});

	it('V-SCH-02: cleaning, Monday and Wednesday 06:00-20:00: 28 hours a week', () => {
		const { starts, hours } = openOf(ready(on(['mon', 'wed'], '06:00-20:00')), '1970-01-05', '1970-01-11');
		expect(starts).toEqual(['1970-01-05T06:00:00+00:00', '1970-01-07T06:00:00+00:00']);
		expect(hours).toBe(28);
	});

	it('V-SCH-03: office hours: 45 hours a week; the first five days from Thursday, 1 January 1970 on', () => {
		const office = ready(on(workdays, '08:00-17:00'), { from: '1970-01-01' });
		expect(openOf(office, '1970-01-05', '1970-01-11').hours).toBe(45);
		expect(openOf(office, '1969-12-29', '1970-01-07').starts.map((at) => at.slice(0, 10))).toEqual([
			'1970-01-01',
			'1970-01-02',
			'1970-01-05',
			'1970-01-06',
			'1970-01-07'
		]);
	});

	it('V-SCH-04: Friday 18:00 to Monday 07:00, in pieces and as one event of the library ical.js: 61 hours', () => {
		const pieces = { fri: ['18:00-24:00'], sat: ['00:00-24:00'], sun: ['00:00-24:00'], mon: ['00:00-07:00'] };
		const { spans, hours } = openOf(ready(pieces), '2014-05-20', '2014-05-26');
		expect(hours).toBe(6 + 24 + 24 + 7);
		const event = new ICAL.Event(
			new ICAL.Component(
				ICAL.parse(
					'BEGIN:VEVENT\r\nDTSTART:20140523T180000\r\nDTEND:20140526T070000\r\nRRULE:FREQ=WEEKLY;BYDAY=FR\r\nEND:VEVENT'
				) as unknown[]
			)
		);
		const { startDate, endDate } = event.getOccurrenceDetails(event.iterator().next());
		const secondsOf = (time: ICAL.Time): number => Date.parse(`${time.toString()}Z`) / 1000;
		expect(spans).toEqual([{ from: secondsOf(startDate), to: secondsOf(endDate) }]);
	});

	it('V-SCH-05: 20:00-02:00 is six hours; five times on Tuesday and Thursday are ten', () => {
		const night = ready(on(['tue'], '20:00-02:00'), { until: '2014-11-26' });
		expect(openOf(night, '2014-11-25', '2014-11-25').hours).toBe(6);
		// The day after must be one on which it is valid: limits cut what is carried.
		expect(openOf(ready(on(['tue'], '20:00-02:00'), { until: '2014-11-25' }), '2014-11-25', '2014-11-25').hours).toBe(
			4
		);
		const twice = ready(on(['tue', 'thu'], '14:00-16:00'), { from: '2014-11-25', until: '2014-12-09' });
		const { starts, hours } = openOf(twice, '2014-11-01', '2014-12-31');
		expect(starts.map((at) => at.slice(5, 10))).toEqual(['11-25', '11-27', '12-02', '12-04', '12-09']);
		expect(hours).toBe(10);
	});

	it('V-SCH-07: a special day replaces the week: Friday 9 hours, Saturday 2', () => {
		const schedule = ready(on(workdays, '07:00-18:00'), {}, { before: ['07:00-16:00'], after: ['08:00-10:00'] });
		const holidays = holidayMap({ '2016-06-10': 'before', '2016-06-11': 'after' });
		expect(openOf(schedule, '2016-06-10', '2016-06-10', holidays).hours).toBe(9);
		expect(openOf(schedule, '2016-06-11', '2016-06-11', holidays).hours).toBe(2);
		expect(openOf(schedule, '2016-06-09', '2016-06-09', holidays).hours).toBe(11);
	});

	it.each([
		['2027-01-06T10:00', true, false],
		['2027-01-07T10:00', true, true],
		['2027-01-07T14:00', false, true],
		['2027-01-08T10:00', false, true],
		['2027-01-09T10:00', false, false]
	])('V-SCH-08: at %s active is %s and special day is %s', (at, isActive, isSpecialDay) => {
		const schedule = ready(on(workdays, '09:00-17:00'), {}, { 'half-day': ['09:00-13:00'], bank: 'closed' });
		const holidays = holidayMap({ '2027-01-07': 'half-day', '2027-01-08': 'bank' });
		expect(openOf(schedule, '2027-01-04', '2027-01-10', holidays).isOpen(at)).toBe(isActive);
		const { rule } = dayRuleOf(schedule, epochDayOf(localDate(at.slice(0, 10))), holidays);
		expect(rule !== 'week').toBe(isSpecialDay);
	});

	it('V-SCH-12: no access on Christmas day is none; a list for the whole day is the whole day', () => {
		const closed = ready(on(workdays, '08:00-17:00'), {}, { christmas: 'closed' });
		const whole = ready(on(['mon', 'wed'], '08:00-17:00'), {}, { christmas: ['00:00-24:00'] });
		const holidays = holidayMap({ '2014-12-25': 'christmas' });
		expect(openOf(closed, '2014-12-25', '2014-12-25', holidays).hours).toBe(0);
		expect(openOf(whole, '2014-12-25', '2014-12-25', holidays).hours).toBe(24);
		expect(openOf(whole, '2014-12-18', '2014-12-18', holidays).hours).toBe(0);
	});
});

it('instants are those of the zone: a night in London that loses an hour (V-DST-03)', () => {
	const night = ready(on(['sat'], '22:00-06:00'));
	const { spans } = openOf(night, '2027-03-27', '2027-03-27', holidayMap({}), 'Europe/London');
	expect(spans.map(({ from, to }) => (to - from) / 3600)).toEqual([7]);
	expect(spans[0]?.from as Instant).toBe(Date.parse('2027-03-27T22:00:00Z') / 1000);
});
