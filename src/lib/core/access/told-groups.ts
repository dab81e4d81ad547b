import type { Work } from '../kernel/work';
import type { Instant } from '../calendar/zone';
import type { Rollout } from '../document/schema';
import { type ChangeGroup, type ChangeVariant, groupChanges } from './compare-groups';
import { Comparison } from './comparison';
import { GroupWords } from './group-words';

/** What changes between two rollouts, as it is told to people. */
export interface ToldGroups {
	/** How many people and doors are concerned, and how many people gain and lose anything. */
	readonly total: { readonly people: number; readonly doors: number; readonly gain: number; readonly lose: number };
	/** Losses first, by the minutes of all people at all doors. */
	readonly groups: readonly ToldGroup[];
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
	/** Where not all of them gain and lose the same: who does what, the one of most people first. */
	readonly variants: readonly ToldVariant[];
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

/** Compares two rollouts over the second one's horizon, and tells what changes in groups. */
export function toldGroups(before: Rollout, after: Rollout, work?: Work): ToldGroups {
	const comparison = new Comparison(before, after, work);
	const words = new GroupWords(before, after);
	const groups = groupChanges(comparison, work);
	const countOf = (pick: (group: ChangeGroup) => readonly string[]) => new Set(groups.flatMap(pick)).size;
	const thatChange = (which: 'gained' | 'lost') => (group: ChangeGroup) =>
		group.variants.flatMap((one) => (one[which] > 0 ? one.people : []));
	return {
		total: {
			people: countOf(({ people }) => people),
			doors: countOf(({ doors }) => doors),
			gain: countOf(thatChange('gained')),
			lose: countOf(thatChange('lost'))
		},
		groups: groups.map((group) => toldGroup(group, comparison, words))
	};
}

function toldGroup(group: ChangeGroup, comparison: Comparison, words: GroupWords): ToldGroup {
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
		gained: toldTimes(group, 'gained'),
		lost: toldTimes(group, 'lost'),
		examples: [...examplesOf('lost'), ...examplesOf('gained')],
		variants:
			variants.length === 1
				? []
				: variants.map((one) => ({
						who: words.who(one.people),
						people: one.people,
						gained: one.gained,
						lost: one.lost,
						gainedWhen: one.gainedWhen.clauses,
						lostWhen: one.lostWhen.clauses
					}))
	};
}

function toldTimes(group: ChangeGroup, which: 'gained' | 'lost'): ToldTimes | null {
	const { variants } = group;
	const [main] = variants as [ChangeVariant];
	if (group[which] === 0) return null;
	const minutes = variants.map((one) => one[which]);
	const { clauses, week } = which === 'gained' ? main.gainedWhen : main.lostWhen;
	return {
		least: minutes.reduce((a, b) => Math.min(a, b)),
		most: minutes.reduce((a, b) => Math.max(a, b)),
		inAll: group[which],
		when: clauses,
		week
	};
}
