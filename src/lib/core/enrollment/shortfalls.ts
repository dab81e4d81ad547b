import { byCodeUnits } from '../kernel/compare';
import type { Kind } from './instance';
import type { EntryChange } from './remedies/entry-change';
import type { Takes } from './remedies/price';
import type { RemedyKind } from './remedies/remedy-kind';
import type { ProofSpace } from './proof-space';
import type { Gap } from './proof-space';

/** A piece of lane time in a proof; instants as RFC 3339 text. */
export interface ShortStretch {
	readonly station: string;
	readonly lane: number;
	readonly from: string;
	readonly to: string;
}

/**
 * What would book everybody of a shortfall, by itself: tried by planning the changed rollout. Remedies stand in the order of their
 * cost.
 */
export interface Remedy {
	/** In words; several changes are joined by semicolons. */
	readonly does: string;
	/** Minutes for which stations are open longer, or people away, or the due date later. */
	readonly minutes: number;
	/** By the rollout's cost table. */
	readonly cost: number;
	/** What is priced, so that the price can be reckoned anew when the table changes. */
	readonly takes: Takes;
	readonly kinds: readonly RemedyKind[];
	/** The edits that make the changes, in order. */
	readonly edits: readonly EntryChange[];
}

/** Changes that book everybody whom remedies can help, of all proofs together. */
export interface Together {
	/** Who is not booked now and would be. */
	readonly people: readonly string[];
	readonly remedy: Remedy;
}

/** A proof that its people cannot all be booked, whoever else is left out. */
export interface Shortfall {
	readonly kind: 'station-time' | 'away-limit' | 'no-common-time';
	readonly people: readonly string[];
	readonly department?: string;
	readonly neededMinutes: number;
	readonly availableMinutes: number;
	readonly stretches: readonly ShortStretch[];
	readonly remedies: readonly Remedy[];
	/** Where there is no remedy: why, in a sentence. */
	readonly noRemedy?: string;
}

/** The pieces of lane time that kinds could use, as the proof counts them, and what they are worth. */
export interface Pieces {
	readonly stretches: readonly ShortStretch[];
	readonly minutes: number;
	readonly isEven: boolean;
}

/**
 * Every piece of lane time that any of some kinds could use: of each gap the part from the earliest start to the latest end; with
 * `isFine`, the parts of it that somebody could really use.
 */
export function piecesOf(space: ProofSpace, kinds: Iterable<number>, isFine: boolean): Pieces {
	const spans = new Map<number, { from: number; to: number }[]>();
	for (const index of kinds) {
		const kind = space.instance.kinds[index] as Kind;
		for (const use of space.usesOf(index)) {
			const gap = space.gaps[use.gap] as Gap;
			const span = { from: space.instantOf(gap, use.lo), to: space.instantOf(gap, use.hi) + kind.minutes * 60 };
			const list = spans.get(use.gap);
			if (!list) spans.set(use.gap, [span]);
			else if (isFine) list.push(span);
			else {
				const whole = list[0] as { from: number; to: number };
				whole.from = Math.min(whole.from, span.from);
				whole.to = Math.max(whole.to, span.to);
			}
		}
	}
	const stretches: (ShortStretch & { at: number })[] = [];
	let minutes = 0;
	let isEven = true;
	const { zone } = space.instance.model;
	for (const [index, list] of spans) {
		const gap = space.gaps[index] as Gap;
		const station = space.instance.lattices[gap.station]?.ready.station;
		if (!station) continue;
		if (!gap.isEven) isEven = false;
		for (const { from, to } of merged(list, station.turnoverMinutes * 60)) {
			const worth = Math.ceil(((to - from) / 60 + station.turnoverMinutes) / space.gridMinutes) * space.gridMinutes;
			for (const lane of gap.lanes) {
				minutes += worth;
				const [start, end] = [zone.textOf(from as never), zone.textOf(to as never)];
				stretches.push({ station: station.id, lane, from: start, to: end, at: from });
			}
		}
	}
	stretches.sort((a, b) => byCodeUnits(a.station, b.station) || a.lane - b.lane || a.at - b.at);
	return { stretches: stretches.map(({ station, lane, from, to }) => ({ station, lane, from, to })), minutes, isEven };
}

/** Joins spans that overlap or lie no further apart than the turnover: apart, they would be worth more than together. */
function merged(spans: { from: number; to: number }[], turnover: number): { from: number; to: number }[] {
	const sorted = [...spans].sort((a, b) => a.from - b.from);
	const joined: { from: number; to: number }[] = [];
	for (const span of sorted) {
		const last = joined.at(-1);
		if (last && span.from <= last.to + turnover) last.to = Math.max(last.to, span.to);
		else joined.push({ ...span });
	}
	return joined;
}
