import { describe, expect, it } from 'vitest';
import { ask, demoBytes, demoRollout } from './support/demo-files';
import { quoted, tableRows } from './support/readme';

interface PlanAnswer {
	bookings: { person: string; station: string; lane: number; start: string; minutes: number }[];
	unbooked: { person: string; reason: string }[];
	bounds: { bookable: number };
	shortfalls: { kind: string; people: string[] }[];
}

async function plan(file: string): Promise<PlanAnswer> {
	// It stops improving when nothing gets better, and after two seconds in any case.
	return (await ask('plan', demoRollout(demoBytes(file)), { seconds: 2, seed: 1 })) as PlanAnswer;
}

describe('the enrollment of Larkfen Cold Store', () => {
	const rollout = demoRollout(demoBytes('larkfen-cold-store.json'));

	it('books everybody but those whom the README tells, each for the reason told', async () => {
		const { bookings, unbooked, bounds, shortfalls } = await plan('larkfen-cold-store.json');
		const told = tableRows('What `plan` says', 'Person').flatMap(([people, reason]) =>
			quoted(people).map((person) => [person, reason])
		);
		expect(unbooked.map(({ person, reason }) => [person, reason]).sort()).toEqual(told.sort());

		const out = new Set(unbooked.map(({ person }) => person));
		const enrolled = new Set(rollout.privacy.templates.map(({ person }) => person));
		const others = rollout.people.filter(({ id }) => !out.has(id) && !enrolled.has(id)).map(({ id }) => id);
		expect(bookings.map(({ person }) => person).sort()).toEqual(others.sort());
		expect(bounds.bookable).toBe(others.length);

		const proven = shortfalls.flatMap(({ kind, people }) => people.map((person) => [person, kind]));
		expect(proven.sort()).toEqual(told.filter(([, reason]) => reason !== 'declined').sort());
	});

	it('leaves the fixed booking where it is', async () => {
		const { bookings } = await plan('larkfen-cold-store.json');
		const fixed = rollout.enrollment.bookings.filter((booking) => booking.fixed);
		expect(fixed).toHaveLength(1);
		for (const { person, station, lane, start, minutes } of fixed) {
			expect(bookings.find((booking) => booking.person === person)).toEqual({ person, station, lane, start, minutes });
		}
	});
});

describe('the enrollment of Ember Lane Kiln Yard', () => {
	it('books everybody but the one who declined', async () => {
		const { bookings, unbooked } = await plan('tutorial-kiln-yard.json');
		expect(unbooked).toEqual([{ person: 'K09', reason: 'declined' }]);
		expect(bookings).toHaveLength(11);
	});
});
