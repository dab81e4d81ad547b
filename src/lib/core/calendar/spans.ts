/**
 * Span algebra. A span is a half-open stretch of time [from, to) on any scale of whole numbers (here: instants in epoch
 * seconds). A *span set* is sorted, its spans are not empty, do not overlap and do not touch: so each set of instants has
 * exactly one form, and equal sets are equal lists. Every function takes and gives span sets unless it says otherwise;
 * cost is linear in the number of spans.
 */
export interface Span {
	readonly from: number;
	readonly to: number;
}

export type SpanSet = readonly Span[];

/** The empty set. */
export const noSpans: SpanSet = [];

/** The span set of spans in any order, overlapping, touching or empty. */
export function spanSetOf(spans: Iterable<Span>): SpanSet {
	const sorted = [...spans].filter((span) => span.from < span.to).sort((a, b) => a.from - b.from);
	const set: Span[] = [];
	for (const span of sorted) {
		const last = set.at(-1);
		if (last && span.from <= last.to) {
			if (span.to > last.to) set[set.length - 1] = { from: last.from, to: span.to };
		} else set.push({ from: span.from, to: span.to });
	}
	return set;
}

/** What lies in any of the sets. */
export function union(...sets: readonly SpanSet[]): SpanSet {
	const filled = sets.filter((set) => set.length > 0);
	if (filled.length <= 1) return filled[0] ?? noSpans;
	return spanSetOf(filled.flat());
}

/** What lies in both sets. */
export function intersection(a: SpanSet, b: SpanSet): SpanSet {
	const both: Span[] = [];
	let i = a.length > 0 && b.length > 0 ? firstEndingAfter(a, (b[0] as Span).from) : a.length;
	let j = i < a.length ? firstEndingAfter(b, (a[i] as Span).from) : 0;
	while (i < a.length && j < b.length) {
		const left = a[i] as Span;
		const right = b[j] as Span;
		const from = Math.max(left.from, right.from);
		const to = Math.min(left.to, right.to);
		if (from < to) both.push({ from, to });
		if (left.to < right.to) i++;
		else j++;
	}
	return both;
}

/** What lies in `a` and not in `b`. */
export function difference(a: SpanSet, b: SpanSet): SpanSet {
	const rest: Span[] = [];
	let j = 0;
	for (const span of a) {
		let from = span.from;
		while (j < b.length && (b[j] as Span).to <= from) j++;
		let k = j;
		while (k < b.length && (b[k] as Span).from < span.to) {
			const cut = b[k] as Span;
			if (cut.from > from) rest.push({ from, to: cut.from });
			from = Math.max(from, cut.to);
			k++;
		}
		if (from < span.to) rest.push({ from, to: span.to });
	}
	return rest;
}

/** The part of a set inside [from, to). */
export function clip(set: SpanSet, from: number, to: number): SpanSet {
	return from < to ? intersection(set, [{ from, to }]) : noSpans;
}

/** True when an instant lies in the set. */
export function contains(set: SpanSet, at: number): boolean {
	return findSpanAt(set, at) !== undefined;
}

/** The span of the set that holds an instant. */
export function findSpanAt(set: SpanSet, at: number): Span | undefined {
	const span = set[firstEndingAfter(set, at)];
	return span && span.from <= at ? span : undefined;
}

/** The total length. */
export function lengthOf(set: SpanSet): number {
	let length = 0;
	for (const span of set) length += span.to - span.from;
	return length;
}

/** True when the two sets share an instant. */
export function doMeet(a: SpanSet, b: SpanSet): boolean {
	return intersection(a, b).length > 0;
}

/** Index of the first span that ends after an instant; the length of the set when there is none. */
export function firstEndingAfter(set: SpanSet, at: number): number {
	let low = 0;
	let high = set.length;
	while (low < high) {
		const middle = (low + high) >>> 1;
		if ((set[middle] as Span).to > at) high = middle;
		else low = middle + 1;
	}
	return low;
}
