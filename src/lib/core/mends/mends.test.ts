import { describe, expect, it } from 'vitest';
import { everyDay, oneDoor } from '../../../../tests/support/one-door';
import type { PlainDocument } from '../../../../tests/oracles/plain-rollout';
import { readRollout } from '../answers/support/read-rollout';
import { type Mends, findMends } from './index';

const chicago = { timeZone: 'America/Chicago', from: '2027-07-01', until: '2027-07-31' };
const holiday = (kind: string, ...dates: string[]) => ({
	coveredUntil: '2027-07-31',
	days: dates.map((date) => ({ date, kind }))
});
/** Works 22:00 to 06:00 in the hall, every day, also on public holidays. */
const nights: Partial<PlainDocument> = {
	people: [{ id: 'p', shiftPattern: 'night', workAreas: ['hall'] }, { id: 'q' }],
	shiftPatterns: [
		{ id: 'night', anchor: '2027-07-01', cycleDays: 1, shifts: [{ day: 0, at: '22:00-06:00' }], worksOn: ['public'] }
	]
};

async function mendsOf(document: PlainDocument, code: string, subject: Record<string, string>): Promise<Mends> {
	const read = readRollout(JSON.stringify(document));
	if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'));
	return findMends(read.value.rollout, code, subject, 20);
}

const told = ({ mends }: Mends) => mends.map(({ id, does }) => `${id}: ${does}`);

describe('holiday-lockout', () => {
	// Closed on the 5th: the night of the 4th is cut at midnight, and the night of the 5th does not begin.
	const document = oneDoor(
		chicago,
		{ week: everyDay('22:00-06:00'), holidays: { public: 'closed' } },
		{ ...nights, holidays: holiday('public', '2027-07-05') }
	);

	it('opens exactly the hours of the holiday, or lets it be as usual, or asks whether it is worked', async () => {
		const found = await mendsOf(document, 'holiday-lockout', { person: 'p' });
		expect(told(found)).toEqual([
			'own-access: Give p a profile of their own, 2027-07-05 to 2027-07-06: d open 00:00-06:00 and 22:00-06:00 on public holidays',
			'widen-schedule: Let schedule s be open 00:00-06:00 and 22:00-06:00 on public holidays',
			'absence: If p does not work on 2027-07-04 to 2027-07-05: enter an absence'
		]);
		const [own, widened] = found.mends;
		// 6 hours of the morning, 2 of the evening, and 6 of the morning after.
		expect(own?.effects).toMatchObject({ subject: { gained: 840, lost: 0 }, others: { people: 0 }, beyondNeed: 0 });
		expect(widened?.effects).toMatchObject({ subject: { gained: 840 }, others: { people: 1, gained: 840 } });
		expect(widened?.edits).toEqual([
			{
				edit: 'set-field',
				params: {
					collection: 'schedules',
					at: 's',
					path: ['holidays', 'public'],
					value: ['00:00-06:00', '22:00-06:00']
				}
			}
		]);
	});

	it('finds nothing to mend where nothing is wrong', async () => {
		expect(await mendsOf(document, 'holiday-lockout', { person: 'q' })).toMatchObject({ finding: null, mends: [] });
	});
});

describe('shift-not-covered', () => {
	it('widens by the missing minutes only, or moves the dates of the assignment', async () => {
		const late = oneDoor(
			chicago,
			{ week: everyDay('22:00-06:00') },
			{ ...nights, assignments: [{ id: 'a', who: { everyone: true }, accessProfile: 'f', from: '2027-07-03' }] }
		);
		const found = await mendsOf(late, 'shift-not-covered', { person: 'p' });
		expect(told(found)).toContain(
			'extend-assignment: Let assignment a of profile f begin on 2027-07-01 instead of 2027-07-03'
		);
		const early = oneDoor(chicago, { week: everyDay('22:30-06:00') }, nights);
		const widened = await mendsOf(early, 'shift-not-covered', { person: 'p' });
		expect(told(widened)).toContain('widen-schedule: Let schedule s be open 22:00-06:00 on every day');
		expect(widened.mends.find(({ id }) => id === 'widen-schedule')?.effects.others).toEqual({
			people: 1,
			doors: 1,
			gained: 31 * 30,
			lost: 0
		});
	});

	it('joins the assignment of those who work alike, and says when a building has no way in', async () => {
		const document = oneDoor(
			chicago,
			{ week: everyDay('00:00-24:00') },
			{
				...nights,
				people: [
					{ id: 'p', job: 'Guard', shiftPattern: 'night', workAreas: ['hall'] },
					{ id: 'q', job: 'Guard' }
				],
				assignments: [{ id: 'a', who: { people: ['q'] }, accessProfile: 'f' }]
			}
		);
		expect(told(await mendsOf(document, 'shift-not-covered', { person: 'p' }))[1]).toBe(
			'join-assignment: Add p to assignment a, which gives profile f'
		);
		const noWay: PlainDocument = { ...document, doors: [{ id: 'd', from: 'street', to: 'street' }] };
		const none = await mendsOf(noWay, 'shift-not-covered', { person: 'p' });
		expect(told(none)).toEqual(['not-in-area: If the work of p is not in hall: take it from the work areas']);
	});
});

describe('holiday-undecided', () => {
	it('offers exactly what shifts need before what opens nothing or more', async () => {
		const document = oneDoor(
			chicago,
			{ week: everyDay('22:00-06:00') },
			{ ...nights, holidays: holiday('public', '2027-07-05') }
		);
		const found = await mendsOf(document, 'holiday-undecided', { schedule: 's', kind: 'public' });
		expect(found.mends.map(({ id, alsoClears }) => [id, alsoClears.length])).toEqual([
			['decide-stretches', 1],
			['decide-closed', 0],
			['decide-normal', 1]
		]);
		expect(found.mends[1]?.effects.rows).toEqual([]);
	});
});

describe('no-route', () => {
	it('gives the way, or takes the useless door out', async () => {
		const document = oneDoor(
			chicago,
			{ week: everyDay('06:00-18:00') },
			{
				areas: [{ id: 'street', outside: true }, { id: 'hall' }, { id: 'vault' }],
				doors: [
					{ id: 'd', from: 'street', to: 'hall' },
					{ id: 'v', from: 'hall', to: 'vault' }
				],
				doorGroups: [{ id: 'g', doors: ['v'] }]
			}
		);
		const found = await mendsOf(document, 'no-route', { person: 'p', door: 'v' });
		expect(told(found)[0]).toBe('add-door: Put d into door group g');
		expect(found.mends.map(({ id }) => id)).toContain('take-from-group');
		expect(found.mends[0]?.effects).toMatchObject({ subject: { gained: 31 * 720 }, beyondNeed: 0 });
	});
});

describe('schedule-overlap', () => {
	it('joins stretches, also over midnight, and proves that nobody gains or loses', async () => {
		const document = oneDoor(chicago, {
			week: { sat: ['17:30-02:30', '17:00-18:00'], sun: ['02:00-06:00'] },
			holidays: { public: ['08:00-12:00', '11:00-13:00'] }
		});
		const ofSaturday = await mendsOf(document, 'schedule-overlap', { schedule: 's', day: 'sat' });
		expect(told(ofSaturday)[0]).toBe('join-stretches: Let schedule s be open 17:00-02:30 on Saturday');
		const ofSunday = await mendsOf(document, 'schedule-overlap', { schedule: 's', day: 'sun' });
		expect(told(ofSunday)[0]).toBe('begin-later: Let schedule s be open 02:30-06:00 on Sunday');
		const ofKind = await mendsOf(document, 'schedule-overlap', { schedule: 's', day: 'public' });
		expect(told(ofKind)[0]).toBe('join-stretches: Let schedule s be open 08:00-13:00 on public holidays');
		for (const { mends } of [ofSaturday, ofSunday, ofKind]) expect(mends[0]?.effects.rows).toEqual([]);
	});
});

describe('person-without-access', () => {
	it('offers what others with the same job have, or the department that was meant', async () => {
		const document = oneDoor(
			chicago,
			{ week: everyDay('06:00-18:00') },
			{
				people: [
					{ id: 'p', department: 'Pakcing', job: 'Sorter' },
					{ id: 'q', department: 'Packing', job: 'Sorter' }
				],
				assignments: [{ id: 'a', who: { departments: ['Packing'] }, accessProfile: 'f' }]
			}
		);
		const found = await mendsOf(document, 'person-without-access', { person: 'p' });
		expect(told(found)).toEqual([
			'join-assignment: Add p to assignment a, which gives profile f',
			'respell: If the department of p is meant to be Packing and not Pakcing: correct it'
		]);
	});
});
