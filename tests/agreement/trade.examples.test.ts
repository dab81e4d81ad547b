import { describe, expect, it } from 'vitest';
import { AccessOracle } from '../oracles/access-oracle';
import type { PlainDocument } from '../oracles/plain-rollout';
import { everyDay, oneDoor } from '../support/one-door';
import { explained, found, spansOf } from './asked';

/**
 * What sites of the trade look like, in small, each with what must come out, worked out by hand from the document format.
 * That such sites are common is common practice, no source; vectors of a standard are named where they are used.
 */

const chicago = (from: string, until: string) => ({ timeZone: 'America/Chicago', from, until });
const london = (from: string, until: string) => ({ timeZone: 'Europe/London', from, until });
const workdays = (...list: string[]) => ({ mon: list, tue: list, wed: list, thu: list, fri: list });

/** One person who works in the hall, with shifts at one time on some days of a cycle. */
function crew(anchor: string, cycleDays: number, days: number[], at: string, worksOn: string[] = []) {
	return {
		people: [{ id: 'p', shiftPattern: 'crew', workAreas: ['hall'] }],
		shiftPatterns: [{ id: 'crew', anchor, cycleDays, shifts: days.map((day) => ({ day, at })), worksOn }]
	} satisfies Partial<PlainDocument>;
}

function holidays(coveredUntil: string, ...days: [date: string, kind: string][]) {
	return { holidays: { coveredUntil, days: days.map(([date, kind]) => ({ date, kind })) } };
}

const arriving = (arriveEarlyMinutes: number) => ({
	site: { name: 'Site', timeZone: 'America/Chicago', arriveEarlyMinutes }
});

describe('the night crew before a holiday', () => {
	const week = chicago('2026-12-21', '2026-12-27');
	const rest = {
		...crew('2026-12-21', 7, [0, 1, 2, 3, 4], '22:00-06:00'),
		...holidays('2026-12-27', ['2026-12-25', 'public']),
		...arriving(15)
	};
	const locked = oneDoor(week, { week: everyDay('21:45-06:00'), holidays: { public: 'closed' } }, rest);
	const mended = oneDoor(week, { week: everyDay('21:45-06:00'), holidays: { public: ['00:00-06:00'] } }, rest);

	it('is locked out at midnight where the holiday is closed', async () => {
		expect(await found(locked)).toEqual(['holiday-lockout p 2026-12-24']);
		expect(await spansOf(locked, 'd', '2026-12-24', '2026-12-26')).toEqual([
			'2026-12-24T00:00:00-06:00 2026-12-24T06:00:00-06:00',
			'2026-12-24T21:45:00-06:00 2026-12-25T00:00:00-06:00',
			'2026-12-26T21:45:00-06:00 2026-12-27T00:00:00-06:00'
		]);
		const night = await explained(locked, 'd', '2026-12-25T02:00');
		expect(night.blockedBy.map(({ reason }) => reason)).toEqual(['holiday-closed']);
		expect(night.nextAllowed).toBe('2026-12-26T21:45:00-06:00');
	});

	it('works on where the holiday has its morning in a list of its own, in one span over midnight', async () => {
		expect(await found(mended)).toEqual([]);
		expect(await spansOf(mended, 'd', '2026-12-24', '2026-12-25')).toContain(
			'2026-12-24T21:45:00-06:00 2026-12-25T06:00:00-06:00'
		);
		const night = await explained(mended, 'd', '2026-12-25T02:00');
		expect(night.because.map(({ stretch, date }) => `${date} ${stretch}`)).toEqual(['2026-12-25 00:00-06:00']);
	});
});

describe('05:45 on a holiday', () => {
	const document = oneDoor(
		chicago('2027-05-24', '2027-06-06'),
		{ week: everyDay('05:45-14:00'), holidays: { public: ['06:00-14:00'] } },
		{
			...crew('2027-05-24', 1, [0], '06:00-14:00', ['public']),
			...holidays('2027-06-06', ['2027-05-31', 'public']),
			...arriving(15)
		}
	);

	it('is a quarter of an hour too early for a holiday that opens with the shift', async () => {
		expect(await found(document)).toEqual(['holiday-lockout p 2027-05-31']);
		const early = await explained(document, 'd', '2027-05-31T05:45');
		expect(early.blockedBy.map(({ reason }) => reason)).toEqual(['holiday-closed']);
		expect(early.nextAllowed).toBe('2027-05-31T06:00:00-05:00');
	});
});

describe('the cleaning crew on shutdown days', () => {
	const document: PlainDocument = {
		...oneDoor(chicago('2027-07-05', '2027-07-18'), {
			week: workdays('06:00-20:00'),
			holidays: { shutdown: 'closed' }
		}),
		...crew('2027-07-05', 7, [0, 1, 2, 3, 4], '08:00-12:00', ['shutdown']),
		...holidays('2027-07-18', ['2027-07-12', 'shutdown'], ['2027-07-13', 'shutdown']),
		areas: [{ id: 'street', outside: true }, { id: 'lobby' }, { id: 'hall' }],
		doors: [
			{ id: 'main', from: 'street', to: 'lobby' },
			{ id: 'wash', from: 'lobby', to: 'hall' }
		],
		doorGroups: [
			{ id: 'perimeter', doors: ['main'] },
			{ id: 'cleaned', doors: ['wash'] }
		],
		schedules: [
			{ id: 'office', week: workdays('06:00-20:00'), holidays: { shutdown: 'closed' } },
			{ id: 'cleaning', week: everyDay('05:00-23:00'), holidays: { shutdown: 'normal' } }
		],
		accessProfiles: [
			{
				id: 'f',
				entries: [
					{ doorGroup: 'perimeter', schedule: 'office' },
					{ doorGroup: 'cleaned', schedule: 'cleaning' }
				]
			}
		]
	};

	it('may open the room, and cannot get to it: the way in follows the office', async () => {
		expect(await found(document)).toEqual(['holiday-lockout p 2027-07-12 2027-07-13']);
		const { allowed, route, blockedBy } = await explained(document, 'wash', '2027-07-12T09:00');
		expect({ allowed, route, reasons: blockedBy.map(({ reason }) => reason) }).toEqual({
			allowed: true,
			route: null,
			reasons: ['no-route']
		});
		expect((await explained(document, 'wash', '2027-07-09T09:00')).route).toEqual(['main', 'wash']);
	});
});

describe('a 2-2-3 rotation of twelve-hour nights over a clock change', () => {
	// On 2, off 2, on 3, off 2, on 2, off 3: the pattern called 2-2-3 in the list of rotating patterns, 84 h in 14 days.
	const on = [0, 1, 4, 5, 6, 9, 10];
	const [first, second] = ['2027-03-08', '2027-03-15'].map((anchor) =>
		oneDoor(chicago('2027-03-08', '2027-04-04'), { week: {} }, crew(anchor, 14, on, '18:00-06:00'))
	);

	it('has every night of 28 days worked by one of two crews', async () => {
		const nights = async (document: PlainDocument) =>
			(await found(document))
				.find((line) => line.startsWith('shift-not-covered'))
				?.split(' ')
				.slice(2) ?? [];
		const ofFirst = await nights(first as PlainDocument);
		expect(ofFirst.slice(0, 7).map((date) => date.slice(5))).toEqual(
			'03-08 03-09 03-12 03-13 03-14 03-17 03-18'.split(' ')
		);
		const ofBoth = [...ofFirst, ...(await nights(second as PlainDocument))];
		expect(new Set(ofBoth).size).toBe(28);
		expect(ofBoth).toHaveLength(28);
	});

	it('is covered in the night that the clock makes an hour shorter, and not where a weekday was forgotten', async () => {
		const nightly = everyDay('18:00-06:00');
		const document = { ...(first as PlainDocument), schedules: [{ id: 's', week: { ...nightly, tue: [] } }] };
		expect(await found(document)).toEqual(['shift-not-covered p 2027-03-09 2027-03-23']);
		expect(await spansOf(document, 'd', '2027-03-13', '2027-03-13')).toContain(
			'2027-03-13T18:00:00-06:00 2027-03-14T00:00:00-06:00'
		);
		// 11 hours by the clock on the wall of somebody who waits: 18:00 to 06:00 with an hour left out.
		expect(await spansOf(document, 'd', '2027-03-13', '2027-03-14')).toContain(
			'2027-03-13T18:00:00-06:00 2027-03-14T06:00:00-05:00'
		);
	});
});

describe('a mantrap with request to exit', () => {
	const trap = (outer: string, inner: string, exit: 'free' | 'reader' = 'free'): PlainDocument => ({
		...oneDoor(chicago('2027-03-08', '2027-03-12'), { week: {} }),
		...crew('2027-03-08', 1, [0], '07:00-19:30'),
		areas: [{ id: 'street', outside: true }, { id: 'trap' }, { id: 'hall' }],
		doors: [
			{ id: 'outer', from: 'street', to: 'trap', exit },
			{ id: 'inner', from: 'trap', to: 'hall', exit }
		],
		doorGroups: [
			{ id: 'one', doors: ['outer'] },
			{ id: 'two', doors: ['inner'] }
		],
		schedules: [
			{ id: 'early', week: everyDay(outer) },
			{ id: 'late', week: everyDay(inner) }
		],
		accessProfiles: [
			{
				id: 'f',
				entries: [
					{ doorGroup: 'one', schedule: 'early' },
					{ doorGroup: 'two', schedule: 'late' }
				]
			}
		]
	});
	const dates = '2027-03-08 2027-03-09 2027-03-10 2027-03-11 2027-03-12';

	it('is not passed in the half hour in which only its inner door opens', async () => {
		const document = trap('07:00-19:00', '06:00-20:00');
		expect(await found(document)).toEqual([`shift-not-covered p ${dates}`]);
		const late = await explained(document, 'inner', '2027-03-08T19:15');
		expect([late.allowed, late.route, late.blockedBy[0]?.reason]).toEqual([true, null, 'no-route']);
		expect(await found(trap('07:00-19:30', '06:00-20:00'))).toEqual([]);
	});

	it('whose doors never open at the same time is told as a door with no route', async () => {
		expect(await found(trap('07:00-12:00', '12:00-20:00'))).toEqual([
			'no-route p inner',
			`shift-not-covered p ${dates}`
		]);
	});

	it('that lets out by reader only asks for a word with the authority', async () => {
		expect(await found(trap('07:00-19:30', '07:00-19:30', 'reader'))).toEqual([
			'exit-needs-reader inner',
			'exit-needs-reader outer'
		]);
	});
});

describe('an emergency exit drawn from the inside out', () => {
	const exitDoor = (exit: 'free' | 'reader') =>
		oneDoor(
			chicago('2027-03-08', '2027-03-08'),
			{ week: {} },
			{ ...crew('2027-03-08', 1, [0], '08:00-12:00'), doors: [{ id: 'd', from: 'hall', to: 'street', exit }] }
		);

	it('lets everybody in from the street, with no credential, where its way back is free', async () => {
		expect(await found(exitDoor('free'))).toEqual(['person-without-access p']);
		expect(await found(exitDoor('reader'))).toEqual([
			'exit-needs-reader d',
			'person-without-access p',
			'shift-not-covered p 2027-03-08'
		]);
	});
});

describe('limits on a single date', () => {
	const sunday = '2027-03-14'; // Chicago turns 02:00 to 03:00.
	const oneDay = (stretch: string) =>
		oneDoor(
			chicago('2027-03-12', '2027-03-17'),
			{ week: everyDay(stretch) },
			{ assignments: [{ id: 'a', who: { people: ['p'] }, accessProfile: 'f', from: sunday, until: sunday }] }
		);

	it('an assignment of one day lasts 23 hours on the day of the clock change', async () => {
		expect(await spansOf(oneDay('00:00-24:00'), 'd')).toEqual(['2027-03-14T00:00:00-06:00 2027-03-15T00:00:00-05:00']);
	});

	it('an assignment of one day has the rest of the night before, and ends with the date', async () => {
		expect(await spansOf(oneDay('20:00-08:00'), 'd')).toEqual([
			'2027-03-14T00:00:00-06:00 2027-03-14T08:00:00-05:00',
			'2027-03-14T20:00:00-05:00 2027-03-15T00:00:00-05:00'
		]);
		const before = await explained(oneDay('20:00-08:00'), 'd', '2027-03-13T21:00');
		expect(before.blockedBy.map(({ reason }) => reason)).toEqual(['assignment-not-in-force']);
		expect(before.nextAllowed).toBe('2027-03-14T00:00:00-06:00');
	});

	it("a leaver's last night is cut at midnight", async () => {
		const { shiftPatterns } = crew('2027-03-08', 1, [0], '22:00-06:00');
		const document = oneDoor(
			chicago('2027-03-08', '2027-03-14'),
			{ week: everyDay('22:00-06:00') },
			{ shiftPatterns, people: [{ id: 'p', shiftPattern: 'crew', workAreas: ['hall'], leavesOn: '2027-03-10' }] }
		);
		expect(await found(document)).toEqual(['shift-not-covered p 2027-03-10']);
		expect((await spansOf(document, 'd')).at(-1)).toBe('2027-03-10T22:00:00-06:00 2027-03-11T00:00:00-06:00');
		const after = await explained(document, 'd', '2027-03-11T00:00');
		expect(after.blockedBy.map(({ reason }) => reason)).toEqual(['not-employed']);
		expect(after.nextAllowed).toBeNull();
	});
});

describe('weekend call-out, Friday 18:00 to Monday 07:00 (V-SCH-04, case B)', () => {
	const hours = { fri: ['18:00-24:00'], sat: ['00:00-24:00'], sun: ['00:00-24:00'], mon: ['00:00-07:00'] };
	const hoursOf = (span: string | undefined) => {
		const [from, to] = (span ?? '').split(' ').map(Date.parse);
		return ((to as number) - (from as number)) / 3_600_000;
	};

	it('is one span of 61 hours, of 60 over the spring change and 62 over the autumn one', async () => {
		const year = oneDoor(london('2027-01-01', '2027-12-31'), { week: hours });
		const of = async (friday: string, monday: string) => hoursOf((await spansOf(year, 'd', friday, monday))[0]);
		expect(await of('2027-01-08', '2027-01-11')).toBe(61);
		expect(await of('2027-03-26', '2027-03-29')).toBe(60);
		expect(await of('2027-10-29', '2027-11-01')).toBe(62);
	});

	it('loses the days of Easter on which the schedule is closed', async () => {
		// England: Good Friday 26 March and Easter Monday 29 March 2027.
		const days = holidays('2027-12-31', ['2027-03-26', 'public'], ['2027-03-29', 'public']);
		const easter = oneDoor(london('2027-03-25', '2027-03-30'), { week: hours, holidays: { public: 'closed' } }, days);
		expect(await spansOf(easter, 'd')).toEqual(['2027-03-27T00:00:00+00:00 2027-03-29T00:00:00+01:00']);
	});
});

describe('the half-day before Christmas', () => {
	const document = oneDoor(
		chicago('2026-12-21', '2026-12-27'),
		{ week: workdays('09:00-17:00', '21:00-03:00'), holidays: { 'half-day': ['09:00-13:00'], public: 'closed' } },
		{
			...crew('2026-12-21', 7, [3], '12:00-16:00', ['half-day']),
			...holidays('2026-12-27', ['2026-12-24', 'half-day'], ['2026-12-25', 'public'])
		}
	);

	it('replaces the day, cuts the night before, and locks the afternoon shift out (states as in V-SCH-08)', async () => {
		expect(await found(document)).toEqual(['holiday-lockout p 2026-12-24']);
		expect((await spansOf(document, 'd')).slice(-2)).toEqual([
			'2026-12-23T21:00:00-06:00 2026-12-24T00:00:00-06:00',
			'2026-12-24T09:00:00-06:00 2026-12-24T13:00:00-06:00'
		]);
	});
});

describe('stretches in the hour of the clock change', () => {
	it('one inside the skipped hour is empty, and noted (V-DST-05)', async () => {
		const document = oneDoor(london('2027-03-22', '2027-04-04'), { week: { sun: ['01:00-02:00'] } });
		expect(await spansOf(document, 'd')).toEqual(['2027-04-04T01:00:00+01:00 2027-04-04T02:00:00+01:00']);
		expect(await found(document)).toEqual(['clock-change s 2027-03-28']);
	});

	it('one in the repeated hour means the first time (V-DST-01, V-DST-04)', async () => {
		const document = oneDoor(london('2027-10-31', '2027-10-31'), { week: { sun: ['01:30-01:45'] } });
		expect(await spansOf(document, 'd')).toEqual(['2027-10-31T01:30:00+01:00 2027-10-31T01:45:00+01:00']);
		const oracle = new AccessOracle(document);
		expect(oracle.time.fateOf('2027-10-31', '01:30')).toBe('repeated');
	});
});
