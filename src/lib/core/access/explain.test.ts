import { describe, expect, it } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import type { LocalDate } from '../calendar/local-date';
import type { LocalDateTime } from '../calendar/local-date-time';
import type { Rollout, RolloutDocument } from '../document/schema';
import { explainInDepth } from './explain';
import { explanationNotes, explanationSentence, routeWords } from './explain-sentence';

const on = (date: string) => date as LocalDate;
const days = (names: readonly string[], ...stretches: string[]) =>
	Object.fromEntries(names.map((day) => [day, stretches]));
const all = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

const parts: Partial<RolloutDocument> = {
	horizon: { from: on('2027-01-04'), until: on('2027-12-31') },
	areas: [
		{ id: 'yard', name: 'Yard', outside: true },
		{ id: 'hall', name: 'Hall' },
		{ id: 'cold', name: 'Cold store' }
	],
	doors: [
		{ id: 'gate', name: 'Gate', from: 'yard', to: 'hall' },
		{ id: 'cold-1', name: 'Cold room 1', from: 'hall', to: 'cold' },
		{ id: 'cold-2', name: 'Cold room 2', from: 'hall', to: 'cold' }
	],
	doorGroups: [
		{ id: 'in', name: 'Way in', doors: ['gate'] },
		{ id: 'cold', name: 'Cold rooms', doors: ['cold-1', 'cold-2'] },
		{ id: 'whole', name: 'Whole site', doors: ['gate', 'cold-1', 'cold-2'] }
	],
	schedules: [
		{
			id: 'nights',
			name: 'Nights',
			week: days(all, '22:00-06:00'),
			holidays: { public: 'closed', half: ['08:00-12:00'] }
		},
		{ id: 'days', name: 'Days', week: days(all, '06:00-18:00') },
		{ id: 'season', name: 'Season', from: on('2027-06-01'), until: on('2027-08-31'), week: days(all, '00:00-24:00') },
		{ id: 'always', week: days(all, '00:00-24:00'), holidays: { public: 'normal', half: 'normal' } }
	],
	holidays: {
		coveredUntil: on('2027-12-31'),
		days: [
			{ date: on('2027-12-25'), name: 'Christmas Day', kind: 'public' },
			{ date: on('2027-12-24'), name: 'Christmas Eve', kind: 'half' }
		]
	},
	people: [
		{ id: '1001', name: 'Ada Quill', department: 'Night crew' },
		{ id: '1002', name: 'Ben Marsh', job: 'Driver' },
		{ id: '1003', name: 'Cleo Tarn', department: 'Season', leavesOn: on('2027-07-31') },
		{ id: '1004', department: 'Both' },
		{ id: '1005', department: 'Cold only' }
	],
	accessProfiles: [
		{
			id: 'cold-staff',
			name: 'Cold store staff',
			entries: [
				{ doorGroup: 'in', schedule: 'nights' },
				{ doorGroup: 'cold', schedule: 'nights' }
			]
		},
		{ id: 'season', name: 'Season hands', entries: [{ doorGroup: 'cold', schedule: 'season' }] },
		{ id: 'gate', name: 'Gate only', entries: [{ doorGroup: 'in', schedule: 'days' }] },
		{ id: 'all', name: 'All', entries: [{ doorGroup: 'whole', schedule: 'always' }] }
	],
	assignments: [
		{ id: 'a-night', who: { departments: ['Night crew', 'Both'] }, accessProfile: 'cold-staff' },
		{ id: 'a-season', who: { departments: ['Season', 'Both', 'Cold only'] }, accessProfile: 'season' },
		{ id: 'a-gate', who: { departments: ['Season', 'Both'] }, accessProfile: 'gate' },
		{ id: 'a-late', who: { departments: ['Both'] }, accessProfile: 'all', from: on('2027-11-01') }
	]
};
const rollout = rolloutOf(parts);

function told(person: string, door: string, at: string, from: Rollout = rollout) {
	const asked = { person, door, at: at as LocalDateTime };
	const one = from.people.find(({ id }) => id === person);
	if (!one) throw new Error(person);
	const { explanation, ...depth } = explainInDepth(from, one, door, asked.at);
	return { ...depth, explanation, sentence: explanationSentence(from, asked, explanation) };
}

describe('the sentence of a yes', () => {
	it('names every link, and the date on which a night began', () => {
		expect(told('1001', 'cold-2', '2027-01-04T02:30').sentence).toBe(
			'Ada Quill (1001) may open Cold room 2 on Mon 4 January 2027 at 02:30, because assignment a-night gives profile Cold store staff, whose entry for door group Cold rooms is on schedule Nights, open 22:00-06:00 since Sun 3 January 2027.'
		);
		expect(told('1001', 'cold-2', '2027-01-04T22:00').sentence).toContain('open 22:00-06:00 on this Monday.');
	});

	it('tells of further ways, and the way from outside', () => {
		const { sentence, explanation } = told('1004', 'cold-1', '2027-07-05T23:00');
		expect(sentence).toContain('assignment a-night gives');
		expect(sentence).toContain('; 1 other way holds too.');
		expect(explanation.because.map(({ assignment }) => assignment)).toEqual(['a-night', 'a-season']);
		expect(routeWords(rollout, explanation)).toBe('Way from outside: Gate, then Cold room 1.');
	});

	it('says which doors on the way stay shut where the door opens and cannot be reached', () => {
		const { sentence, missingDoors, nextReachable, explanation } = told('1003', 'cold-1', '2027-07-05T05:00');
		expect(explanation).toMatchObject({ allowed: true, route: null, nextAllowed: '2027-07-05T05:00:00-05:00' });
		expect(sentence).toMatch(
			/, yet cannot get to it: the door opens, but Hall, from which it leads, cannot be reached at this time: on the way, Gate does not open for them then\.$/
		);
		expect(missingDoors).toEqual(['gate']);
		expect(nextReachable).toBe('2027-07-05T06:00:00-05:00');
		expect(told('1005', 'cold-1', '2027-07-05T05:00').nextReachable).toBeNull();
	});
});

describe('the sentence of a no', () => {
	it('names the holiday, its kind and date', () => {
		expect(told('1001', 'cold-2', '2027-12-25T02:30').sentence).toBe(
			'Ada Quill (1001) may not open Cold room 2 on Sat 25 December 2027 at 02:30, because assignment a-night does not open it: Schedule Nights is closed on public holidays, such as Christmas Day, Sat 25 December 2027. And then: Schedule Nights is closed at 02:30; on Sat 25 December 2027 it has 22:00-06:00; the night before, Christmas Eve, Fri 24 December 2027, is a half holiday, on which its night does not begin.'
		);
	});

	it('names the hours of a holiday list, and that an ordinary day would not help', () => {
		expect(told('1001', 'cold-2', '2027-12-24T13:00').explanation.blockedBy[0]).toEqual({
			assignment: 'a-night',
			reason: 'holiday-closed',
			detail:
				'Schedule Nights has only 08:00-12:00 on half holidays, such as Christmas Eve, Fri 24 December 2027. And then: Schedule Nights is closed at 13:00; on Fri 24 December 2027 it has 22:00-06:00, and the rest of 22:00-06:00 of Thu 23 December 2027.'
		});
	});

	it('names the night that a holiday took, on the morning after', () => {
		expect(told('1001', 'cold-2', '2027-12-26T02:30').explanation.blockedBy[0]).toEqual({
			assignment: 'a-night',
			reason: 'schedule-closed',
			detail:
				'Schedule Nights is closed at 02:30; on Sun 26 December 2027 it has 22:00-06:00; the night before, Christmas Day, Sat 25 December 2027, is a public holiday, on which its night does not begin.'
		});
	});

	it('names what the night before leaves of the day', () => {
		expect(told('1001', 'cold-2', '2027-02-02T06:00').explanation.blockedBy[0]?.detail).toBe(
			'Schedule Nights is closed at 06:00; on Tue 2 February 2027 it has 22:00-06:00, and the rest of 22:00-06:00 of Mon 1 February 2027.'
		);
	});

	it('names an undecided kind', () => {
		const undecided = rolloutOf({
			...parts,
			holidays: { days: [{ date: on('2027-03-01'), kind: 'founding' }] }
		});
		expect(told('1001', 'gate', '2027-03-01T23:00', undecided).explanation.blockedBy[0]).toEqual({
			assignment: 'a-night',
			reason: 'holiday-undecided',
			detail: 'Schedule Nights says nothing of founding holidays, so that it is closed on Mon 1 March 2027.'
		});
	});

	it('names the dates of a schedule, of an assignment and of employment, and on which side the date lies', () => {
		expect(told('1005', 'cold-1', '2027-09-01T10:00').explanation.blockedBy).toEqual([
			{
				assignment: 'a-season',
				reason: 'schedule-not-valid',
				detail:
					'Schedule Season is valid from Tue 1 June 2027 until Tue 31 August 2027; Wed 1 September 2027 lies after that.'
			}
		]);
		expect(told('1004', 'cold-1', '2027-01-04T12:00').explanation.blockedBy).toContainEqual({
			assignment: 'a-late',
			reason: 'assignment-not-in-force',
			detail: 'In force from Mon 1 November 2027; Mon 4 January 2027 lies before that.'
		});
		expect(told('1003', 'cold-1', '2027-08-01T10:00').sentence).toBe(
			'Cleo Tarn (1003) may not open Cold room 1 on Sun 1 August 2027 at 10:00, because employed until Sat 31 July 2027; Sun 1 August 2027 lies after that.'
		);
	});

	it('names the smallest group that holds the door, and who gives it', () => {
		expect(told('1003', 'cold-1', '2027-02-01T10:00').explanation.blockedBy.at(-1)).toEqual({
			assignment: 'a-gate',
			reason: 'door-not-granted',
			detail:
				'Profile Gate only has Way in, without Cold room 1; door group Cold rooms holds it, given by Cold store staff and Season hands.'
		});
	});

	it('names the assignment that would open the door to somebody whom none matches', () => {
		expect(told('1002', 'cold-1', '2027-02-01T02:00').sentence).toBe(
			'Ben Marsh (1002) may not open Cold room 1 on Mon 1 February 2027 at 02:00, because no assignment names the person, job Driver. Assignment a-night, for departments Night crew and Both, would open it then.'
		);
	});
});

describe('nearness', () => {
	it('fewer breaks come first, then the break furthest from the person, then the time', () => {
		// At noon in February: Nights closed for 6 hours; Season outside of its dates; a-late not in force; a-gate lacks the door.
		expect(
			told('1004', 'cold-1', '2027-02-01T12:00').explanation.blockedBy.map(({ assignment }) => assignment)
		).toEqual(['a-night', 'a-season', 'a-late', 'a-gate']);
		// On a half holiday at noon two things stand in the way of a-night: the holiday's hours, and the week's.
		expect(told('1004', 'cold-1', '2027-12-24T12:00', lateUntil('2027-11-30')).explanation.blockedBy[0]).toMatchObject({
			assignment: 'a-late',
			reason: 'assignment-not-in-force'
		});
	});

	function lateUntil(until: string): Rollout {
		return rolloutOf({
			...parts,
			assignments: parts.assignments?.map((one) => (one.id === 'a-late' ? { ...one, until: on(until) } : one)) ?? []
		});
	}
});

describe('what must be known beside the sentence', () => {
	const notes = (at: string) => explanationNotes(rollout, at as LocalDateTime);

	it('says which of two times is meant, and how a skipped one is read', () => {
		// V-DST: America/Chicago skips 02:00 to 03:00 on 2027-03-14 and repeats 01:00 to 02:00 on 2027-11-07.
		expect(notes('2027-11-07T01:30')).toEqual([
			'The clock shows 01:30 twice on this date: the first of the two is meant, 2027-11-07T01:30:00-05:00.'
		]);
		expect(notes('2027-03-14T02:30')).toEqual([
			'The clock change skips 02:30 on this date: read with the offset before the change, as 2027-03-14T03:30:00-05:00.'
		]);
		expect(notes('2027-03-14T03:30')).toEqual([]);
	});

	it('says that a date lies outside of the horizon, and beyond the holiday list', () => {
		expect(notes('2028-01-01T08:00')).toEqual([
			'Sat 1 January 2028 lies outside of the horizon, Mon 4 January 2027 to Fri 31 December 2027, which the checks cover.',
			'The holiday list is complete until Fri 31 December 2027 only: this date counts as ordinary unless listed.'
		]);
	});
});
