import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
import { type Work, unwatched } from '../kernel/work';
import { type Recurring, recurringOf } from '../calendar/recurring';
import type { Comparison } from './comparison';

/**
 * Changes of access gathered so that a person can read those of 20,000 people.
 *
 * The idea: people who gain and lose the same spans at the same doors are one *variant*; variants at the same doors that
 * come back in the same way, and differ only in when somebody starts or leaves, are one *group*. Nothing is lost: each
 * person, door and change stands in exactly one variant of one group. Our own.
 */
export interface ChangeGroup {
	/** Ids, sorted. */
	readonly doors: readonly string[];
	/** Ids of everybody in it, sorted. */
	readonly people: readonly string[];
	/** The one of most people first. */
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
	readonly gainedWhen: Recurring;
	readonly lostWhen: Recurring;
}

/**
 * The groups of a comparison. Losses come first, since they lock people out: by minutes lost in all, then by minutes
 * gained, then by door and person.
 */
export function groupChanges(comparison: Comparison, work: Work = unwatched): readonly ChangeGroup[] {
	const variants = variantsOf(comparison);
	const whens = new Map<number, Pick<ChangeVariant, 'gained' | 'lost' | 'gainedWhen' | 'lostWhen'>>();
	const groups = new Map<string, { doors: readonly string[]; variants: ChangeVariant[] }>();
	variants.forEach(({ doors, people, change }, place) => {
		if (place % 200 === 0) work.report(place, variants.length, 'words for what changes');
		const when = remembered(whens, change, () => whenOf(comparison, change));
		const key = `${when.gainedWhen.pattern}|${when.lostWhen.pattern}|${doors.join('\n')}`;
		const group = remembered(groups, key, () => ({ doors, variants: [] as ChangeVariant[] }));
		group.variants.push({ people: people.sort(byCodeUnits), change, ...when });
	});
	return [...groups.values()]
		.map((group) => {
			const inAll = (which: 'gained' | 'lost') =>
				group.variants.reduce((sum, one) => sum + one[which] * one.people.length * group.doors.length, 0);
			return {
				doors: group.doors,
				people: group.variants.flatMap((one) => one.people).sort(byCodeUnits),
				variants: group.variants.sort((a, b) => b.people.length - a.people.length || a.change - b.change),
				gained: inAll('gained'),
				lost: inAll('lost')
			};
		})
		.sort(
			(a, b) =>
				b.lost - a.lost ||
				b.gained - a.gained ||
				byCodeUnits(a.doors[0] ?? '', b.doors[0] ?? '') ||
				byCodeUnits(a.people[0] ?? '', b.people[0] ?? '')
		);
}

/** People with one change at one set of doors. */
function variantsOf({ classes }: Comparison) {
	const variants = new Map<string, { doors: readonly string[]; people: string[]; change: number }>();
	for (const one of classes) {
		const doorsByChange = new Map<number, string[]>();
		one.changes.forEach((change, place) =>
			remembered(doorsByChange, change, () => []).push(one.doors[place] as string)
		);
		for (const [change, doors] of doorsByChange) {
			const variant = remembered(variants, `${change}|${doors.join('\n')}`, () => ({
				doors,
				people: [] as string[],
				change
			}));
			for (const person of one.people) variant.people.push(person);
		}
	}
	return [...variants.values()];
}

function whenOf(comparison: Comparison, change: number) {
	const { gained, lost } = comparison.secondsOf(change);
	const when = (which: 'gained' | 'lost') =>
		recurringOf(comparison.spansOf(change, which), comparison.zone, comparison.range);
	return { gained: gained / 60, lost: lost / 60, gainedWhen: when('gained'), lostWhen: when('lost') };
}
