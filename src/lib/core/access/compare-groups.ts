import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
import { type Work, unwatched } from '../kernel/work';
import { type Recurring, recurringOf } from '../calendar/recurring';
import type { Rollout } from '../document/schema';
import type { Comparison } from './comparison';

/**
 * Changes of access gathered so that a person can read those of 20,000 people.
 *
 * The idea: people who gain and lose the same spans at the same doors are one *variant*; variants at the same doors that
 * differ only in when somebody starts or leaves, or that come back in the same way, are one *group*. Each person, door and
 * change stands in exactly one variant of one group. Words for when are found for the groups that are told only: where
 * everybody changes in another way, finding them for all would take minutes that nobody reads. Our own.
 */
export interface ChangeGroup {
	/** Ids, sorted. */
	readonly doors: readonly string[];
	/** Ids of everybody in it, sorted. */
	readonly people: readonly string[];
	/** The one of most people first, then of most minutes. */
	readonly variants: readonly ChangeVariant[];
	/** Minutes gained and lost by all people at all doors together. */
	readonly gained: number;
	readonly lost: number;
}

export interface ChangeVariant {
	/** Ids, sorted. */
	readonly people: readonly string[];
	/** The number of the change in its comparison. */
	readonly change: number;
	/** Minutes for each person at each door. */
	readonly gained: number;
	readonly lost: number;
}

/** What groups are narrowed to; what is left out is no limit. */
export interface GroupFilter {
	/** Ids of a person and of a door, and the name of a department. */
	readonly person?: string | undefined;
	readonly door?: string | undefined;
	readonly department?: string | undefined;
	readonly does?: 'lose' | 'gain' | undefined;
}

export interface GroupedChanges {
	readonly groups: readonly ChangeGroup[];
	/** Groups that come after those, by their size; they are counted and not told. */
	readonly rest: readonly ChangeGroup[];
	readonly whenOf: (change: number, which: 'gained' | 'lost') => Recurring;
}

/**
 * The first groups of a comparison, at most `most`. Losses come first, since they lock people out: by minutes lost in all,
 * then by minutes gained, then by door and person.
 */
export function groupChanges(
	comparison: Comparison,
	{ most = Infinity, fits = () => true }: { most?: number; fits?: (group: ChangeGroup) => boolean } = {},
	work: Work = unwatched
): GroupedChanges {
	const whens = new Map<string, Recurring>();
	const whenOf = (change: number, which: 'gained' | 'lost') =>
		remembered(whens, `${change}${which}`, () =>
			recurringOf(comparison.spansOf(change, which), comparison.zone, comparison.range)
		);
	const alike = gathered(variantsOf(comparison, work), ({ doors, change }) => [comparison.kindOf(change), doors])
		.map(({ doors, members }) => groupOf(doors, members))
		.filter(fits)
		.sort(byWeight);
	const told = alike.slice(0, most).map((group, place, all) => {
		if (place % 50 === 0) work.report(place, all.length, 'words for what changes');
		return group;
	});
	const groups = gathered(told, ({ doors, variants: [main] }) => {
		const change = (main as ChangeVariant).change;
		return [`${whenOf(change, 'gained').pattern}|${whenOf(change, 'lost').pattern}`, doors];
	});
	return {
		groups: groups
			.map(({ doors, members }) =>
				groupOf(
					doors,
					members.flatMap(({ variants }) => variants)
				)
			)
			.sort(byWeight),
		rest: alike.slice(most),
		whenOf
	};
}

/** Whether a group has anybody and anything that a filter asks for. */
export function fitsFilter(
	{ person, department, door, does }: GroupFilter,
	rollouts: readonly Rollout[]
): (group: Pick<ChangeGroup, 'people' | 'doors' | 'gained' | 'lost'>) => boolean {
	const isIn = new Set(
		rollouts.flatMap(({ people }) => people.flatMap((one) => (one.department === department ? one.id : [])))
	);
	return ({ people, doors, gained, lost }) =>
		(person === undefined || people.includes(person)) &&
		(door === undefined || doors.includes(door)) &&
		(does !== 'lose' || lost > 0) &&
		(does !== 'gain' || gained > 0) &&
		(department === undefined || people.some((id) => isIn.has(id)));
}

function groupOf(doors: readonly string[], variants: readonly ChangeVariant[]): ChangeGroup {
	const inAll = (which: 'gained' | 'lost') =>
		variants.reduce((sum, one) => sum + one[which] * one.people.length * doors.length, 0);
	return {
		doors,
		people: variants.flatMap((one) => one.people).sort(byCodeUnits),
		variants: [...variants].sort(
			(a, b) => b.people.length - a.people.length || b.gained + b.lost - a.gained - a.lost || a.change - b.change
		),
		gained: inAll('gained'),
		lost: inAll('lost')
	};
}

function byWeight(a: ChangeGroup, b: ChangeGroup): number {
	return (
		b.lost - a.lost ||
		b.gained - a.gained ||
		byCodeUnits(a.doors[0] ?? '', b.doors[0] ?? '') ||
		byCodeUnits(a.people[0] ?? '', b.people[0] ?? '')
	);
}

/** What has the same key at the same list of doors (the same list object), together. */
function gathered<T>(
	all: readonly T[],
	keyOf: (one: T) => readonly [key: string, doors: readonly string[]]
): readonly { readonly doors: readonly string[]; readonly members: T[] }[] {
	const byDoors = new Map<readonly string[], Map<string, { doors: readonly string[]; members: T[] }>>();
	for (const one of all) {
		const [key, doors] = keyOf(one);
		const atDoors = remembered(byDoors, doors, () => new Map<string, { doors: readonly string[]; members: T[] }>());
		remembered(atDoors, key, () => ({ doors, members: [] as T[] })).members.push(one);
	}
	return [...byDoors.values()].flatMap((atDoors) => [...atDoors.values()]);
}

/** People with one change at one set of doors. Equal sets of doors are the same list object. */
function variantsOf(comparison: Comparison, work: Work): readonly (ChangeVariant & { doors: readonly string[] })[] {
	const { classes } = comparison;
	const lists = new Map<string, readonly string[]>();
	const variants = new Map<readonly string[], Map<number, string[]>>();
	classes.forEach((one, count) => {
		if (count % 200 === 0) work.report(count, classes.length, 'people who change alike');
		const doorsByChange = new Map<number, string[]>();
		one.changes.forEach((change, place) =>
			remembered(doorsByChange, change, () => []).push(one.doors[place] as string)
		);
		for (const [change, own] of doorsByChange) {
			const doors = remembered(lists, own.join('\n'), () => own);
			const atDoors = remembered(variants, doors, () => new Map<number, string[]>());
			const people = remembered(atDoors, change, () => []);
			for (const person of one.people) people.push(person);
		}
	});
	const minutes = new Map<number, { gained: number; lost: number }>();
	const minutesOf = (change: number) =>
		remembered(minutes, change, () => {
			const { gained, lost } = comparison.secondsOf(change);
			return { gained: gained / 60, lost: lost / 60 };
		});
	return [...variants].flatMap(([doors, atDoors]) =>
		[...atDoors].map(([change, people]) => ({ doors, change, people: people.sort(byCodeUnits), ...minutesOf(change) }))
	);
}
