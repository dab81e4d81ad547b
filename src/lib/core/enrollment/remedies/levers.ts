import type { Rollout } from '../../document/schema';
import type { EnrollmentModel } from '../model';
import type { Shortfall } from '../shortfalls';
import { type EntryChange, withChanges, withoutRepeats } from './entry-change';
import { entryLevers } from './entry-levers';
import { openingLevers } from './opening-levers';
import type { Lever, LeverTerms } from './lever';
import { profilesOf } from './presence';
import { priceOf } from './price';
import type { RemedyKind } from './remedy-kind';

/** A lever and how far it is pulled. */
export interface Pulled {
	readonly lever: Lever;
	readonly amount: number;
}

/** The changes of several levers in a row, one for each entry; undefined where the document does not admit them. */
export function changesOf(rollout: Rollout, pulled: readonly Pulled[]): EntryChange[] | undefined {
	const changes: EntryChange[] = [];
	let given = rollout;
	for (const { lever, amount } of pulled) {
		const more = lever.change(given, amount);
		if (!more) return undefined;
		given = withChanges(given, more);
		changes.push(...more);
	}
	return withoutRepeats(changes);
}

export function costOf(pulled: readonly Pulled[]): number {
	return pulled.reduce((sum, { lever, amount }) => sum + lever.cost(amount), 0);
}

/** The levers of two remedies pulled together: one that stands in both as far as the further. */
export function merged(some: readonly Pulled[], more: readonly Pulled[]): Pulled[] {
	const all = [...some];
	for (const one of more) {
		const at = all.findIndex(({ lever }) => lever.key === one.lever.key);
		const other = all[at];
		if (!other) all.push(one);
		else {
			const amount = Math.max(other.amount, one.amount);
			const dearer = one.lever.cost(amount) > other.lever.cost(amount) ? one.lever : other.lever;
			all[at] = { lever: dearer, amount };
		}
	}
	return all;
}

/** All levers that could help the people of a shortfall, `missing` of whom are to be booked; `unbooked` may compete with them. */
export function leversFor(
	model: EnrollmentModel,
	shortfall: Shortfall,
	missing: readonly string[],
	unbooked: ReadonlySet<string>,
	others: Pick<LeverTerms, 'broken' | 'isLarge'>
): Lever[] {
	const people = shortfall.people.flatMap((id) => model.peopleById.get(id) ?? []);
	const profiles = profilesOf(model, people, new Set(missing));
	const { gridMinutes, stations } = model.rollout.enrollment;
	const turnover = stations.reduce((most, one) => Math.max(most, one.turnoverMinutes), 0);
	const minutesOf = (ids: Iterable<string>): number => {
		let sum = 0;
		for (const id of ids) {
			const person = model.peopleById.get(id);
			const minutes = person && model.standings.get(id) === 'to-book' ? (model.minutesOf(person) ?? 0) : 0;
			if (minutes > 0) sum += Math.ceil((minutes + turnover) / gridMinutes) * gridMinutes;
		}
		return sum;
	};
	const terms = {
		model,
		shortfall,
		profiles,
		missing,
		minutesMissing: minutesOf(missing),
		minutesOfAll: minutesOf(unbooked),
		...others
	};
	const { costs } = model.rollout.enrollment;
	const levers = [...openingLevers(terms), ...entryLevers(terms)].map((lever): Lever => ({
		...lever,
		cost: (amount) => priceOf(lever.takes(amount), costs)
	}));
	return others.isLarge ? ofMostReach(levers) : levers;
}

/** With many people each trial takes long: of each kind the few levers that could help most, the cheaper first. */
function ofMostReach(levers: readonly Lever[]): Lever[] {
	const sorted = [...levers].sort((a, b) => b.reach - a.reach || a.cost(1) - b.cost(1));
	const counts = new Map<RemedyKind, number>();
	return sorted.filter(({ kind }) => {
		counts.set(kind, (counts.get(kind) ?? 0) + 1);
		return (counts.get(kind) as number) <= 5;
	});
}
