import { canonicalJson, isSameJson } from '../../core/document/canonical';
import { fieldOf } from '../../core/document/walk';
import type { Sibling, Slot } from './pieces';

/**
 * Finds which of the new siblings are which of the old: first the same object, then the same key or id, then the same
 * content, last an old one that stood in the same gap. What is left is new, or gone.
 */
export function matchSiblings(before: readonly Sibling[], after: readonly Sibling[]): readonly (number | undefined)[] {
	const match = new Array<number | undefined>(after.length).fill(undefined);
	const free = new Set(before.keys());
	const pairBy = (nameOf: (sibling: Sibling) => unknown) => {
		const waiting = new Map<unknown, number[]>();
		for (const index of free) {
			const name = nameOf(before[index] as Sibling);
			if (name === undefined) continue;
			const same = waiting.get(name);
			if (same) same.push(index);
			else waiting.set(name, [index]);
		}
		if (waiting.size === 0) return;
		after.forEach((sibling, at) => {
			if (match[at] !== undefined) return;
			const index = waiting.get(nameOf(sibling))?.shift();
			if (index === undefined) return;
			match[at] = index;
			free.delete(index);
		});
	};
	pairBy(({ key, value }) => (key === '' && typeof value === 'object' && value !== null ? value : undefined));
	pairBy(({ key, value }) => (key === '' ? idOf(value) : key));
	if (free.size > 0 && after.some((_, at) => match[at] === undefined)) {
		pairBy(({ key, value }) => (key === '' && idOf(value) === undefined ? canonicalJson(value) : undefined));
		pairGaps(before, after, match, free);
	}
	return match;
}

/** An entry that was changed where it stands: an old one just behind the old one of the entry before it. */
function pairGaps(
	before: readonly Sibling[],
	after: readonly Sibling[],
	match: (number | undefined)[],
	free: Set<number>
): void {
	const isUnmatched = (at: number) => match[at] === undefined;
	const unmatched = after.flatMap(({ key }, at) => (key === '' && isUnmatched(at) ? [at] : []));
	// With ids, one left on both sides is one that got another id; with more it is unclear, and they are others.
	const hasIds = after.some(({ value }) => idOf(value) !== undefined);
	if (hasIds && (unmatched.length !== 1 || free.size !== 1)) return;
	for (const at of unmatched) {
		const candidate = at === 0 ? 0 : (match[at - 1] ?? -2) + 1;
		if (!free.has(candidate) || before[candidate]?.key !== '') continue;
		match[at] = candidate;
		free.delete(candidate);
	}
}

function idOf(value: unknown): string | undefined {
	const id = fieldOf(value, 'id');
	return typeof id === 'string' ? id : undefined;
}

/** True when the two values need not be written again. */
export function isUnchanged(before: Sibling | undefined, after: Sibling): boolean {
	return before !== undefined && isSameJson(before.value, after.value);
}

/**
 * Positions for siblings in their new order: those that had one keep it as long as the order allows, new ones go in
 * between. Where there is no room, or the order has changed, all are counted anew.
 */
export function positionsFor(had: readonly (number | undefined)[]): readonly number[] {
	const kept = had.filter((position) => position !== undefined);
	const isInOrder = kept.every((position, index) => index === 0 || position > (kept[index - 1] as number));
	const filled = isInOrder ? filledIn(had) : undefined;
	return filled ?? had.map((_, index) => index);
}

function filledIn(had: readonly (number | undefined)[]): readonly number[] | undefined {
	const positions = [...had];
	for (let start = 0; start < positions.length; start++) {
		if (positions[start] !== undefined) continue;
		let end = start;
		while (end < positions.length && positions[end] === undefined) end++;
		const count = end - start;
		const low = positions[start - 1];
		const high = positions[end];
		for (let n = 0; n < count; n++) {
			if (low === undefined) positions[start + n] = (high ?? count) - count + n;
			else if (high === undefined) positions[start + n] = low + 1 + n;
			else positions[start + n] = low + ((high - low) * (n + 1)) / (count + 1);
		}
		start = end;
	}
	const all = positions as number[];
	return all.every((position, index) => index === 0 || position > (all[index - 1] as number)) ? all : undefined;
}

/** The slots of siblings that were matched, numbers for new ones taken from `nextNumber`. */
export function slotsFor(
	after: readonly Sibling[],
	match: readonly (number | undefined)[],
	slots: readonly Slot[],
	nextNumber: () => number
): readonly Slot[] {
	const positions = positionsFor(match.map((index) => (index === undefined ? undefined : slots[index]?.position)));
	return after.map(({ key }, at) => {
		const index = match[at];
		const number = index === undefined ? (key === '' ? nextNumber() : 0) : (slots[index] as Slot).number;
		return { key, number, position: positions[at] as number };
	});
}
