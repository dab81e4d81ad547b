import type { Span } from '../calendar/spans';
import { type Lattice, firstSlotFrom } from './lattice';

/**
 * The slots of one station at which somebody may start, whoever else is booked: intervals of slots, both ends included, grouped
 * by run. Interval i of run r has runOf-index: first[r] <= i < first[r + 1]; it goes from lo[i] to hi[i].
 */
export interface Window {
	readonly first: Int32Array;
	readonly lo: Int32Array;
	readonly hi: Int32Array;
	/** The runs that have an interval, ascending. */
	readonly runs: Int32Array;
	/** Number of slots. */
	readonly size: number;
}

/** What decides the window of a person at a station. Times in seconds. */
export interface WindowTerms {
	readonly seconds: number;
	readonly walk: number;
	/** Spans in one of which the whole absence must lie, sorted by begin; they may overlap. */
	readonly free: readonly Span[];
	/** The booking must end by then. */
	readonly until: number;
}

/** The window for these terms; null where there is no slot at all. */
export function windowOf(lattice: Lattice, terms: WindowTerms): Window | null {
	const first = new Int32Array(lattice.runs.length + 1);
	const lo: number[] = [];
	const hi: number[] = [];
	const used: number[] = [];
	let size = 0;
	let begin = 0;
	lattice.runs.forEach((run, index) => {
		first[index] = lo.length;
		while (begin < terms.free.length && (terms.free[begin] as Span).to <= run.from) begin++;
		const found = intervalsIn(lattice, run.stretches, run, terms, begin);
		for (const [from, to] of found) {
			lo.push(from);
			hi.push(to);
			size += to - from + 1;
		}
		if (found.length > 0) used.push(index);
	});
	first[lattice.runs.length] = lo.length;
	if (size === 0) return null;
	return { first, lo: Int32Array.from(lo), hi: Int32Array.from(hi), runs: Int32Array.from(used), size };
}

function intervalsIn(
	lattice: Lattice,
	stretches: readonly Span[],
	run: Span,
	{ seconds, walk, free, until }: WindowTerms,
	begin: number
): [number, number][] {
	const found: [number, number][] = [];
	for (let index = begin; index < free.length; index++) {
		const span = free[index] as Span;
		if (span.from >= run.to) break;
		for (const stretch of stretches) {
			const from = Math.max(stretch.from, span.from + walk);
			const last = Math.min(stretch.to - seconds, span.to - walk - seconds, until - seconds);
			if (last < from) continue;
			const lo = firstSlotFrom(lattice, from);
			// The last instant is allowed itself, but never the end of the stretch.
			let hi = firstSlotFrom(lattice, last + 1) - 1;
			while (hi >= lo && (lattice.at[hi] as number) >= stretch.to) hi--;
			if (lo <= hi) found.push([lo, hi]);
		}
	}
	found.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
	const merged: [number, number][] = [];
	for (const interval of found) {
		const last = merged.at(-1);
		if (last && interval[0] <= last[1] + 1) last[1] = Math.max(last[1], interval[1]);
		else merged.push([...interval]);
	}
	return merged;
}
