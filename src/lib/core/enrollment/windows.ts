import type { Span } from '../calendar/spans';
import { type Lattice, firstSlotOfRun } from './lattice';

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
	/** The booking must end by then. */
	readonly until: number;
}

/** An open stretch of a station and a span, in one of which the whole absence must lie, that share some time. */
export interface Meeting {
	readonly run: number;
	readonly stretch: Span;
	readonly free: Span;
}

/** Where the stretches of a station and spans (sorted by begin; they may overlap) meet, by run. */
export function meetingsOf(lattice: Lattice, free: readonly Span[]): readonly Meeting[] {
	const meetings: Meeting[] = [];
	let begin = 0;
	lattice.runs.forEach((run, index) => {
		while (begin < free.length && (free[begin] as Span).to <= run.from) begin++;
		for (let at = begin; at < free.length; at++) {
			const span = free[at] as Span;
			if (span.from >= run.to) break;
			for (const stretch of run.stretches) {
				if (span.from < stretch.to && stretch.from <= span.to) meetings.push({ run: index, stretch, free: span });
			}
		}
	});
	return meetings;
}

/** The window for these terms where stretches and free time meet; null where there is no slot at all. */
export function windowOf(lattice: Lattice, meetings: readonly Meeting[], terms: WindowTerms): Window | null {
	const first = new Int32Array(lattice.runs.length + 1);
	const lo: number[] = [];
	const hi: number[] = [];
	const used: number[] = [];
	let size = 0;
	let run = 0;
	for (let at = 0; at < meetings.length;) {
		const own = (meetings[at] as Meeting).run;
		while (run <= own) first[run++] = lo.length;
		const before = lo.length;
		for (; at < meetings.length && (meetings[at] as Meeting).run === own; at++) {
			pushInterval(lattice, meetings[at] as Meeting, terms, lo, hi);
		}
		if (lo.length > before + 1) joinIntervals(lo, hi, before);
		for (let index = before; index < lo.length; index++) size += (hi[index] as number) - (lo[index] as number) + 1;
		if (lo.length > before) used.push(own);
	}
	while (run <= lattice.runs.length) first[run++] = lo.length;
	if (size === 0) return null;
	return { first, lo: Int32Array.from(lo), hi: Int32Array.from(hi), runs: Int32Array.from(used), size };
}

function pushInterval(
	lattice: Lattice,
	{ run, stretch, free }: Meeting,
	{ seconds, walk, until }: WindowTerms,
	lo: number[],
	hi: number[]
): void {
	const from = Math.max(stretch.from, free.from + walk);
	const last = Math.min(stretch.to - seconds, free.to - walk - seconds, until - seconds);
	if (last < from) return;
	const begin = firstSlotOfRun(lattice, run, from);
	// The last instant is allowed itself, but never the end of the stretch.
	let end = firstSlotOfRun(lattice, run, last + 1) - 1;
	while (end >= begin && (lattice.at[end] as number) >= stretch.to) end--;
	if (begin > end) return;
	lo.push(begin);
	hi.push(end);
}

/** Sorts the intervals from a place on, and joins those that touch. */
function joinIntervals(lo: number[], hi: number[], from: number): void {
	const intervals = lo.slice(from).map((begin, index) => [begin, hi[from + index] as number] as const);
	intervals.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
	lo.length = from;
	hi.length = from;
	for (const [begin, end] of intervals) {
		if (lo.length > from && begin <= (hi.at(-1) as number) + 1) hi[hi.length - 1] = Math.max(hi.at(-1) as number, end);
		else {
			lo.push(begin);
			hi.push(end);
		}
	}
}

/** True when two windows of a station allow the same slots. */
export function isSameWindow(a: Window, b: Window): boolean {
	if (a.size !== b.size || a.lo.length !== b.lo.length) return false;
	for (let index = 0; index < a.lo.length; index++) {
		if (a.lo[index] !== b.lo[index] || a.hi[index] !== b.hi[index]) return false;
	}
	return true;
}

/** A number that is the same for windows that allow the same slots, and hardly ever for others. */
export function hashOfWindow({ lo, hi }: Window): number {
	let hash = lo.length;
	for (let index = 0; index < lo.length; index++) {
		hash = (Math.imul(hash, 31) + (lo[index] as number)) | 0;
		hash = (Math.imul(hash, 31) + (hi[index] as number)) | 0;
	}
	return hash;
}
