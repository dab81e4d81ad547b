import { describe, expect, test } from 'vitest';
import { bytesOf, lines } from '../../../../../tests/support/read-roster';
import { rolloutSchema } from '../../document/schema';
import { importTimes } from './import-times';

const into = rolloutSchema.parse({
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Larkfen', timeZone: 'America/New_York' },
	horizon: { from: '2027-01-04', until: '2027-12-31' },
	shiftPatterns: [
		{
			id: 'early',
			name: 'Early',
			anchor: '2027-01-04',
			cycleDays: 7,
			shifts: [0, 1, 2, 3, 4].map((day) => ({ day, at: '06:00-14:00' }))
		},
		{ id: 'night', name: 'Night', anchor: '2027-01-04', cycleDays: 4, shifts: [{ day: 0, at: '22:00-06:00' }] }
	],
	absences: [{ person: '1', from: '2027-07-01', until: '2027-07-09' }],
	people: [
		{ id: '1', name: 'Ana Ruiz', email: 'ana@site.example' },
		{ id: '2', name: 'Ben Ode', email: 'ben@site.example', shiftPattern: 'night' },
		{ id: '3', name: 'Sam Lee' },
		{ id: '4', name: 'Sam Lee' }
	]
});

function read(text: string, map?: unknown) {
	const result = importTimes(bytesOf(text), into, map);
	if (!result.ok) throw new Error(result.faults.map(({ message }) => message).join('\n'));
	const { absences, patterns, problems, known } = result.value;
	return {
		absences: absences.map(({ person, from, until }) => `${person} ${from} ${until ?? 'open'}`),
		patterns: patterns.map(({ person, before, after }) => `${person} ${before ?? 'none'} ${after}`),
		problems: problems.map(({ row, code }) => `${row} ${code}`),
		known
	};
}

describe('a list', () => {
	test('of absences, by number, address or name; what is there already is not added again', () => {
		const text = lines(
			'Staff no;Name;E-mail;From;Until',
			'1;;;01.07.2027;09.07.2027',
			'1;;;20.09.2027;24.09.2027',
			';;ben@site.example;02.08.2027;',
			';Ben Ode;;13.08.2027;15.08.2027',
			';Sam Lee;;13.08.2027;15.08.2027',
			'9;;;13.08.2027;15.08.2027',
			'2;;;15.08.2027;13.08.2027',
			'2;;;31.02.2027;13.08.2027',
			'2;;;;13.08.2027'
		);
		expect(read(text)).toEqual({
			absences: ['1 2027-09-20 2027-09-24', '2 2027-08-02 open', '2 2027-08-13 2027-08-15'],
			patterns: [],
			problems: ['6 person-ambiguous', '7 person-unknown', '8 until-before-from', '9 date-invalid', '10 date-missing'],
			known: 1
		});
	});

	test('of dates whose order nothing decides leaves them out, until it is said', () => {
		const text = lines('Staff no,From,Until', '1,03/04/2027,05/04/2027');
		expect(read(text)).toMatchObject({ absences: [], problems: ['2 date-order-unknown', '2 date-order-unknown'] });
		expect(read(text, { dateOrder: 'day-first' }).absences).toEqual(['1 2027-04-03 2027-04-05']);
	});

	test('of shift patterns, by id or name', () => {
		const text = lines('Staff no,Shift pattern', '1,Early', '2,night', '3,erly', '1,night');
		expect(read(text)).toEqual({
			absences: [],
			patterns: ['1 none early'],
			problems: ['4 pattern-unknown', '5 pattern-repeated'],
			known: 1
		});
	});

	test('that is neither is refused', () => {
		expect(importTimes(bytesOf(lines('Staff no,Name', '1,Ana Ruiz')), into).ok).toBe(false);
		expect(importTimes(bytesOf(''), into).ok).toBe(false);
	});
});

const calendar = (...parts: string[]): string =>
	lines('BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//test//EN', ...parts, 'END:VCALENDAR');
const event = (...parts: string[]): string[] => ['BEGIN:VEVENT', 'UID:u1@site.example', ...parts, 'END:VEVENT'];

describe('a calendar', () => {
	test('whole days are absences, the end is exclusive (RFC 5545, 3.6.1); canceled events are none', () => {
		const text = calendar(
			...event(
				'SUMMARY:Vacation',
				'ATTENDEE:mailto:ana@site.example',
				'DTSTART;VALUE=DATE:20270920',
				'DTEND;VALUE=DATE:20270925'
			),
			...event('SUMMARY:Away: Ben Ode', 'DTSTART;VALUE=DATE:20270802'),
			...event('SUMMARY:Ben Ode', 'STATUS:CANCELLED', 'DTSTART;VALUE=DATE:20270803'),
			...event('SUMMARY:Sam Lee', 'DTSTART;VALUE=DATE:20270803'),
			...event('SUMMARY:Somebody', 'DTSTART;VALUE=DATE:20270803')
		);
		expect(read(text)).toMatchObject({
			absences: ['1 2027-09-20 2027-09-24', '2 2027-08-02 2027-08-02'],
			problems: ['4 person-ambiguous', '5 person-unknown']
		});
	});

	test('repetitions: every last Sunday, as RFC 5545 3.8.5.3 has it, with an exception and one that was moved', () => {
		const text = calendar(
			...event(
				'SUMMARY:1',
				'DTSTART;VALUE=DATE:20270131',
				'RRULE:FREQ=MONTHLY;BYDAY=-1SU;COUNT=4',
				'EXDATE;VALUE=DATE:20270328'
			),
			...event('SUMMARY:1', 'RECURRENCE-ID;VALUE=DATE:20270425', 'DTSTART;VALUE=DATE:20270426')
		);
		expect(read(text).absences).toEqual([
			'1 2027-01-31 2027-01-31',
			'1 2027-02-28 2027-02-28',
			'1 2027-04-26 2027-04-26'
		]);
	});

	test('timed events are held against the patterns by the clock of the site: in UTC over a clock change, too', () => {
		// New York turns its clocks on 14 March 2027: 06:00 is 11:00 UTC before and 10:00 after.
		const days = [8, 9, 10, 11, 12].map((day) =>
			event('SUMMARY:1', `DTSTART:202703${String(day).padStart(2, '0')}T110000Z`, 'DURATION:PT8H')
		);
		const later = [15, 16, 17, 18, 19].map((day) =>
			event('SUMMARY:1', `DTSTART:202703${day}T100000Z`, 'DURATION:PT8H')
		);
		expect(read(calendar(...days.flat(), ...later.flat())).patterns).toEqual(['1 none early']);
		const weekly = event(
			'SUMMARY:1',
			'DTSTART;TZID=America/New_York:20270104T060000',
			'DTEND;TZID=America/New_York:20270104T140000',
			'RRULE:FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR;UNTIL=20270401T000000Z'
		);
		expect(read(calendar(...weekly)).patterns).toEqual(['1 none early']);
		expect(read(calendar(...weekly).replaceAll('T060000', 'T070000'))).toMatchObject({
			patterns: [],
			problems: ['1 pattern-unmatched']
		});
	});

	test('a zone that nothing explains is told; text that is no calendar is refused', () => {
		const text = calendar(...event('SUMMARY:1', 'DTSTART;TZID=Atlantis/Deep:20270104T060000', 'DURATION:PT8H'));
		expect(read(text).problems).toEqual(['1 zone-unknown']);
		expect(importTimes(bytesOf('BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n'), into).ok).toBe(false);
	});
});
