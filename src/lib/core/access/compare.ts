import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
import type { Work } from '../kernel/work';
import type { Instant } from '../calendar/zone';
import type { Rollout } from '../document/schema';
import { type ChangedClass, Comparison } from './comparison';

/** What changes for a person at a door: minutes gained and lost, and the first spans of each as RFC 3339 text. */
export interface AccessChange {
	readonly person: string;
	readonly door: string;
	readonly gained: number;
	readonly lost: number;
	readonly examples: readonly AccessChangeExample[];
}

export interface AccessChangeExample {
	readonly change: 'gained' | 'lost';
	readonly door: string;
	readonly from: string;
	readonly to: string;
}

/** All changes, each kind once: a list for 20,000 people can have millions of entries. */
export interface AlikeChanges {
	/** People who gain and lose the same: `changes[i]` is the place of what changes at `doors[i]`. */
	readonly classes: readonly ChangedClass[];
	readonly changes: readonly DoorChange[];
}

/** What changes at a door, whichever it is. */
export interface DoorChange {
	readonly gained: number;
	readonly lost: number;
	readonly examples: readonly Omit<AccessChangeExample, 'door'>[];
}

const mostExamples = 3;

/**
 * Who gains and who loses which door between two rollouts, over the second one's horizon. A person or a door that one of
 * them lacks may open, or be opened by, nobody there. Only pairs that change; sorted by person, then door.
 */
export function compareAccess(before: Rollout, after: Rollout): AccessChange[] {
	return [...changesOf(compareAlike(before, after))];
}

/** As `compareAccess`, with what is alike written once. */
export function compareAlike(before: Rollout, after: Rollout, work?: Work): AlikeChanges {
	const comparison = new Comparison(before, after, work);
	// The same instants again and again: a text of its own for each would fill the memory.
	const texts = new Map<number, string>();
	const textOf = (at: number) => remembered(texts, at, () => comparison.zone.textOf(at as Instant));
	const examplesOf = (id: number, change: 'gained' | 'lost') =>
		comparison
			.spansOf(id, change, mostExamples)
			.map(({ from, to }) => ({ change, from: textOf(from), to: textOf(to) }));
	return {
		classes: comparison.classes,
		changes: Array.from({ length: comparison.changeCount }, (_, id) => {
			const { gained, lost } = comparison.secondsOf(id);
			return {
				gained: gained / 60,
				lost: lost / 60,
				examples: [...examplesOf(id, 'gained'), ...examplesOf(id, 'lost')]
			};
		})
	};
}

/** The changes one by one, sorted by person, then door. */
export function* changesOf({ classes, changes }: AlikeChanges): Iterable<AccessChange> {
	for (const { person, one } of inOrder(classes)) {
		for (const [place, door] of one.doors.entries()) {
			const { gained, lost, examples } = changes[one.changes[place] as number] as DoorChange;
			yield {
				person,
				door,
				gained,
				lost,
				examples: examples.map(({ change, from, to }) => ({ change, door, from, to }))
			};
		}
	}
}

/** Each person with their class, sorted by person. */
export function inOrder(
	classes: readonly ChangedClass[]
): readonly { readonly person: string; readonly one: ChangedClass }[] {
	return classes
		.flatMap((one) => one.people.map((person) => ({ person, one })))
		.sort((a, b) => byCodeUnits(a.person, b.person));
}
