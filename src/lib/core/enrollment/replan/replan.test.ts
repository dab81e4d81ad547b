import { describe, expect, test } from 'vitest';
import { type SitePerson, enrollSite } from '../../../../../tests/support/enroll-site';
import type { LocalDateTime } from '../../calendar/local-date-time';
import { type Rollout, type RolloutDocument, rolloutSchema } from '../../document/schema';
import { replan } from './replan';

type Enrollment = NonNullable<RolloutDocument['enrollment']>;
type Given = NonNullable<Enrollment['bookings']>[number];

const monday = '2027-02-01';
const tuesday = '2027-02-02';

function booked(person: string, start: string, more: Partial<Given> = {}): Given {
	return { person, station: 'desk', lane: 1, start: start as never, minutes: 10, ...more };
}

function site(parts: {
	people: readonly SitePerson[];
	open?: readonly string[];
	bookings: readonly Given[];
	more?: Partial<Enrollment>;
	rest?: Partial<RolloutDocument>;
}): Rollout {
	return rolloutSchema.parse(
		enrollSite({
			people: parts.people,
			open: { desk: parts.open ?? [`${monday} 08:00-09:00`, `${tuesday} 08:00-09:00`] },
			minutes: [10],
			grid: 10,
			more: { bookings: [...parts.bookings], ...parts.more },
			rest: parts.rest ?? {}
		})
	);
}

const at = (text: string): LocalDateTime => text as LocalDateTime;
const people = (...ids: string[]): SitePerson[] => ids.map((id) => ({ id }));

describe('nothing happened', () => {
	test('nothing changes, whatever better plan there is', () => {
		const plan = replan(
			site({ people: people('a', 'b'), bookings: [booked('a', `${tuesday}T08:50`), booked('b', `${monday}T08:30`)] }),
			at(`${monday}T07:00`)
		);
		expect(plan).toMatchObject({ changes: [], kept: 2, moved: 0, unbooked: [], unrecorded: [] });
	});
});

describe('what is over', () => {
	const rollout = (more: Partial<Enrollment>) =>
		site({
			people: people('a', 'b'),
			bookings: [booked('a', `${monday}T08:00`), booked('b', `${monday}T08:10`)],
			more
		});

	test('somebody who did not come gets free time after the moment', () => {
		const visits = [
			{ person: 'a', on: monday as never, outcome: 'no-show' as const },
			{ person: 'b', on: monday as never, outcome: 'enrolled' as const }
		];
		const plan = replan(rollout({ visits }), at(`${monday}T08:25`));
		expect(plan.changes).toEqual([
			{
				person: 'a',
				before: booked('a', `${monday}T08:00`),
				after: booked('a', `${monday}T08:30`),
				why: { kind: 'missed' },
				mustBeTold: false
			}
		]);
		expect(plan.bookings.map(({ person }) => person)).toEqual(['a']);
	});

	test('of whom nothing is recorded is not booked again, and told', () => {
		expect(replan(rollout({}), at(`${tuesday}T00:00`))).toMatchObject({ changes: [], unrecorded: ['a', 'b'] });
	});

	test('a booking that runs at the moment keeps its lane', () => {
		const plan = replan(
			site({ people: people('a', 'b'), bookings: [booked('a', `${monday}T08:20`)] }),
			at(`${monday}T08:25`)
		);
		expect(plan.changes).toMatchObject([{ person: 'b', after: { start: `${monday}T08:30` }, why: { kind: 'new' } }]);
	});
});

describe('a joiner when the station is full', () => {
	// Tuesday only for c and b; a can come on both days.
	const absences = [{ person: 'c', from: monday as never, until: monday as never }];
	const full = (toldOn: string | null) =>
		site({
			people: people('a', 'b', 'c'),
			open: [`${monday} 08:00-08:10`, `${tuesday} 08:00-08:20`],
			bookings: [
				booked('a', `${tuesday}T08:00`, { toldOn: toldOn as never }),
				booked('b', `${tuesday}T08:10`, { toldOn: '2027-01-20' as never })
			],
			rest: { absences }
		});

	test('one booking is moved, of somebody who was not told yet', () => {
		const plan = replan(full(null), at('2027-01-25T08:00'));
		expect(plan).toMatchObject({ kept: 1, moved: 1, toldAnew: 0, cost: 5, unbooked: [] });
		expect(plan.changes.map(({ person, why }) => [person, why.kind])).toEqual([
			['a', 'made-room'],
			['c', 'new']
		]);
	});

	test('who was told is moved only where nobody else can be, and counted', () => {
		expect(replan(full('2027-01-20'), at('2027-01-25T08:00'))).toMatchObject({ moved: 1, toldAnew: 1, unbooked: [] });
	});

	test('a fixed booking never moves', () => {
		const rollout = full(null);
		const bookings = rollout.enrollment.bookings.map((booking) => ({ ...booking, fixed: true }));
		const plan = replan({ ...rollout, enrollment: { ...rollout.enrollment, bookings } }, at('2027-01-25T08:00'));
		expect(plan).toMatchObject({ kept: 2, moved: 0, unbooked: ['c'] });
		expect(plan.changes).toMatchObject([{ person: 'c', before: null, after: null }]);
	});
});

test('an illness at the station: bookings of the closed stretch go elsewhere, the others stay', () => {
	const plan = replan(
		site({
			people: people('a', 'b', 'c'),
			open: [`${monday} 08:20-09:00`, `${tuesday} 08:00-09:00`],
			bookings: [
				booked('a', `${monday}T08:00`, { toldOn: '2027-01-20' as never }),
				booked('b', `${monday}T08:20`),
				booked('c', `${tuesday}T08:00`)
			]
		}),
		at('2027-01-31T12:00')
	);
	expect(plan).toMatchObject({ kept: 2, moved: 0, unbooked: [] });
	expect(plan.changes).toMatchObject([
		{
			person: 'a',
			after: { start: `${monday}T08:30` },
			why: { kind: 'no-longer-valid', problems: [{ code: 'station-closed' }] },
			mustBeTold: true
		}
	]);
});

describe('what is easily got wrong', () => {
	test('who was told of the appointment keeps it in the other lane, and need not be told', () => {
		const plan = replan(
			site({
				people: people('a', 'b'),
				open: [`${monday} 08:00-09:00`],
				bookings: [
					booked('a', `${monday}T08:30`, { lane: 2, toldOn: '2027-01-20' as never }),
					booked('b', `${monday}T08:00`)
				]
			}),
			at('2027-01-31T12:00')
		);
		expect(plan.changes).toMatchObject([
			{ person: 'a', after: { lane: 1, start: `${monday}T08:30` }, mustBeTold: false }
		]);
	});

	test('who did not come is rebooked while their own time still runs', () => {
		const visits = [{ person: 'a', on: monday as never, outcome: 'no-show' as const }];
		const rollout = site({
			people: people('a'),
			open: [`${monday} 08:00-08:40`],
			bookings: [booked('a', `${monday}T08:20`)],
			more: { visits }
		});
		expect(replan(rollout, at(`${monday}T08:25`)).changes).toMatchObject([{ after: { start: `${monday}T08:30` } }]);
	});

	test('a second booking of somebody goes, and the first stays', () => {
		const rollout = site({
			people: people('a'),
			bookings: [booked('a', `${monday}T08:00`), booked('a', `${tuesday}T08:00`)]
		});
		expect(replan(rollout, at('2027-01-31T12:00'))).toMatchObject({
			changes: [],
			kept: 1,
			repeated: [{ start: `${tuesday}T08:00` }]
		});
	});
});
