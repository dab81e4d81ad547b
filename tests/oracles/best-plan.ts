import type { Person } from '../../src/lib/core/document/schema';
import type { PlainBooking, PlanOracle } from './plan-oracle';

/** The five goals in their order, as numbers of which more is better; lists are compared from the left. */
export type Goals = readonly number[];

/** What a set of bookings reaches: people, people by due date, sessions, minutes walked, sum of starts. */
export function goalsOf(oracle: PlanOracle, bookings: readonly PlainBooking[]): Goals {
	const { waves } = oracle.rollout.enrollment;
	const dates = [...new Set(waves.map((wave) => wave.enrollBy))].filter((date) => date !== null).sort();
	const waveOf = (id: string): string | null => {
		const person = oracle.person(id);
		return waves.find((wave) => wave.id === person?.wave)?.enrollBy ?? null;
	};
	const byDate = dates.map((date) => bookings.filter((booking) => waveOf(booking.person) === date).length);
	const walked = bookings.map((booking) => {
		const [person, station] = [oracle.person(booking.person), oracle.station(booking.station)];
		return person && station ? oracle.walkOf(person, station) : 0;
	});
	const sum = (list: readonly number[]): number => list.reduce((total, one) => total + one, 0);
	return [
		bookings.length,
		...byDate,
		-oracle.sessionsOf(bookings).length,
		-sum(walked),
		-sum(bookings.map((booking) => oracle.startOf(booking)))
	];
}

/** Negative when the first reaches less, positive when it reaches more. */
export function compareGoals(a: Goals, b: Goals): number {
	const at = a.findIndex((one, index) => one !== b[index]);
	return at < 0 ? 0 : (a[at] as number) - (b[at] as number);
}

/** People, and sessions: whoever they are, whenever they are due. */
export function peopleAndSessions(oracle: PlanOracle, bookings: readonly PlainBooking[]): Goals {
	return [bookings.length, -oracle.sessionsOf(bookings).length];
}

/**
 * The best goals of all plans, by trying every way to book everybody; undefined where there are more ways than `most`. Fixed
 * bookings must not occur. The first goal must be the number of people.
 */
export function bestGoals(oracle: PlanOracle, most: number, reached = goalsOf): Goals | undefined {
	const choices = oracle.rollout.people
		.filter((person) => !oracle.isDeclined(person) && !oracle.isEnrolled(person))
		.map((person) => startsInLanes(oracle, person));
	let ways = 1;
	for (const list of choices) ways *= list.length + 1;
	if (ways > most) return undefined;
	let best = reached(oracle, []);
	const bookings: PlainBooking[] = [];
	const go = (index: number): void => {
		const list = choices[index];
		if (!list) {
			const goals = reached(oracle, bookings);
			if (compareGoals(goals, best) > 0 && oracle.faultsOf(bookings).length === 0) best = goals;
			return;
		}
		// Not enough people left to reach as many.
		if (bookings.length + choices.length - index < (best[0] as number)) return;
		for (const booking of list) {
			if (bookings.some((other) => !oracle.goTogether(other, booking))) continue;
			bookings.push(booking);
			go(index + 1);
			bookings.pop();
		}
		go(index + 1);
	};
	go(0);
	return best;
}

/** Every booking of a person that is valid by itself, in every lane. */
export function startsInLanes(oracle: PlanOracle, person: Person): PlainBooking[] {
	return oracle.validStarts(person).flatMap((start) => {
		const lanes = oracle.station(start.station)?.lanes ?? 0;
		return Array.from({ length: lanes }, (_, index) => ({ ...start, lane: index + 1 }));
	});
}
