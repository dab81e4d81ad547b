import type { Work } from '../kernel/work';
import type { Instant } from '../calendar/zone';
import type { Rollout } from '../document/schema';
import {
	type ChangeGroup,
	type ChangeVariant,
	type GroupFilter,
	type GroupedChanges,
	fitsFilter,
	groupChanges
} from './compare-groups';
import { Comparison } from './comparison';
import { GroupWords } from './group-words';

/** What changes between two rollouts, as it is told to people. */
export interface ToldGroups {
	/** How many people and doors are concerned, and how many people gain and lose anything. */
	readonly total: { readonly people: number; readonly doors: number; readonly gain: number; readonly lose: number };
	/** Losses first, by the minutes of all people at all doors. */
	readonly groups: readonly ToldGroup[];
	/** What is counted and not told, because nobody reads so many groups; null where all are told. */
	readonly rest: {
		readonly groups: number;
		readonly people: number;
		readonly gained: number;
		readonly lost: number;
	} | null;
}

export interface ToldGroup {
	/** In words: `all 312 people of Packing`. */
	readonly who: string;
	/** Ids, sorted. */
	readonly people: readonly string[];
	/** In words: `the 4 doors of Cold rooms`. */
	readonly where: string;
	/** Ids, sorted. */
	readonly doors: readonly string[];
	readonly gained: ToldTimes | null;
	readonly lost: ToldTimes | null;
	/** Of the people with the change in full; RFC 3339. */
	readonly examples: readonly ToldExample[];
	/** Where not all of them gain and lose the same: who does what, the one of most people first; the first few. */
	readonly variants: readonly ToldVariant[];
	/** In how many ways they gain and lose. */
	readonly ways: number;
}

export interface ToldExample {
	readonly change: 'gained' | 'lost';
	readonly from: string;
	readonly to: string;
}

export interface ToldTimes {
	/** Minutes for one person at one door: what the one has who has least, and who has most. */
	readonly least: number;
	readonly most: number;
	/** Minutes of all people at all doors. */
	readonly inAll: number;
	/** When, of the variant of most people: `Mondays 06:00–07:00, 51 times`. */
	readonly when: readonly string[];
	/** The week that comes back: column 0 (Monday) to 6, minutes of the day; empty where none does. */
	readonly week: readonly { readonly day: number; readonly from: number; readonly to: number }[];
}

export interface ToldVariant {
	readonly who: string;
	readonly people: readonly string[];
	readonly gained: number;
	readonly lost: number;
	readonly gainedWhen: readonly string[];
	readonly lostWhen: readonly string[];
}

const mostExamples = 3;
const mostGroups = 500;
const mostVariants = 10;

/** Compares two rollouts over the second one's horizon, and tells what changes in groups, all or those of a filter. */
export function toldGroups(before: Rollout, after: Rollout, work?: Work, filter: GroupFilter = {}): ToldGroups {
	const comparison = new Comparison(before, after, work);
	const words = new GroupWords(before, after);
	const fits = fitsFilter(filter, [before, after]);
	const grouped = groupChanges(comparison, { most: mostGroups, fits }, work);
	const { groups, rest } = grouped;
	const countOf = (all: readonly ChangeGroup[], pick: (group: ChangeGroup) => readonly string[]) => {
		const ids = new Set<string>();
		for (const group of all) for (const id of pick(group)) ids.add(id);
		return ids.size;
	};
	const every = [...groups, ...rest];
	const thatChange = (which: 'gained' | 'lost') => (group: ChangeGroup) =>
		group.variants.flatMap((one) => (one[which] > 0 ? one.people : []));
	const sumOf = (which: 'gained' | 'lost') => rest.reduce((sum, group) => sum + group[which], 0);
	return {
		total: {
			people: countOf(every, ({ people }) => people),
			doors: countOf(every, ({ doors }) => doors),
			gain: countOf(every, thatChange('gained')),
			lose: countOf(every, thatChange('lost'))
		},
		groups: groups.map((group) => toldGroup(group, comparison, words, grouped.whenOf)),
		rest:
			rest.length === 0
				? null
				: {
						groups: rest.length,
						people: countOf(rest, ({ people }) => people),
						gained: sumOf('gained'),
						lost: sumOf('lost')
					}
	};
}

function toldGroup(
	group: ChangeGroup,
	comparison: Comparison,
	words: GroupWords,
	whenOf: GroupedChanges['whenOf']
): ToldGroup {
	const { people, doors, variants } = group;
	const [main] = variants as [ChangeVariant];
	const examplesOf = (change: 'gained' | 'lost') =>
		comparison.spansOf(main.change, change, mostExamples).map(({ from, to }) => ({
			change,
			from: comparison.zone.textOf(from as Instant),
			to: comparison.zone.textOf(to as Instant)
		}));
	return {
		who: words.who(people),
		people,
		where: words.doors(doors),
		doors,
		gained: toldTimes(group, 'gained', whenOf),
		lost: toldTimes(group, 'lost', whenOf),
		examples: [...examplesOf('lost'), ...examplesOf('gained')],
		ways: variants.length,
		variants:
			variants.length === 1
				? []
				: variants.slice(0, mostVariants).map((one) => ({
						who: words.who(one.people),
						people: one.people,
						gained: one.gained,
						lost: one.lost,
						gainedWhen: whenOf(one.change, 'gained').clauses,
						lostWhen: whenOf(one.change, 'lost').clauses
					}))
	};
}

function toldTimes(group: ChangeGroup, which: 'gained' | 'lost', whenOf: GroupedChanges['whenOf']): ToldTimes | null {
	const { variants } = group;
	const [main] = variants as [ChangeVariant];
	if (group[which] === 0) return null;
	const minutes = variants.map((one) => one[which]);
	const { clauses, week } = whenOf(main.change, which);
	return {
		least: minutes.reduce((a, b) => Math.min(a, b)),
		most: minutes.reduce((a, b) => Math.max(a, b)),
		inAll: group[which],
		when: clauses,
		week
	};
}
