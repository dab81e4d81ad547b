import type { Rollout } from '../../document/schema';
import type { EnrollmentModel } from '../model';
import type { Shortfall } from '../shortfalls';
import { type EntryChange, withChanges, withoutRepeats } from './entry-change';
import { entryLevers } from './entry-levers';
import { openingLevers } from './opening-levers';
import { type Profile, profilesOf } from './presence';

/** What a remedy does, in kinds. */
export type RemedyKind =
	'open-longer' | 'open-anew' | 'one-more-lane' | 'away-limit' | 'due-date' | 'serve-need' | 'let-move';

/**
 * Something that could be changed for a shortfall, from a little to a lot; what it does and costs hangs on the amount, a whole number
 * from 1. A rollout in which levers were pulled before can be pulled on further: `change` looks at the rollout that it is given.
 */
export interface Lever {
	readonly kind: RemedyKind;
	readonly most: number;
	/** How many it could help, for choosing which to try where there is no time for all. */
	readonly reach: number;
	/** Undefined where the document does not admit the amount. */
	change(rollout: Rollout, amount: number): readonly EntryChange[] | undefined;
	/** Minutes that the amount stands for, and its price by the cost table. */
	minutes(amount: number): number;
	cost(amount: number): number;
	does(amount: number): string;
}

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

/** What levers are made from: the people of a shortfall, alike ones together, and the time that is asked for. */
export interface LeverTerms {
	readonly model: EnrollmentModel;
	readonly shortfall: Shortfall;
	readonly profiles: readonly Profile[];
	readonly missing: readonly string[];
	/** Minutes at a station that those who are missing take, with turnover, on the grid; and those of everybody unbooked. */
	readonly minutesMissing: number;
	readonly minutesOfAll: number;
	/** People with a fixed booking that breaks a rule. */
	readonly broken: ReadonlySet<string>;
	readonly isLarge: boolean;
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
	const levers = [...openingLevers(terms), ...entryLevers(terms)];
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
