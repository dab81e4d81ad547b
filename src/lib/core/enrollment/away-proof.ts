import { type Span, type SpanSet, lengthOf, spanSetOf, union } from '../calendar/spans';
import { largestFlow } from './flow';
import type { Kind, StandingBooking } from './instance';
import type { Gap, ProofSpace, Use } from './proof-space';

/** Somebody, or all of a kind, who would be away from a limited department. */
export interface Leaver {
	/** Place of the kind; -1 for a booking that stands. */
	readonly kind: number;
	readonly standing: StandingBooking | undefined;
	readonly count: number;
	/** Least minutes that one of them is away. */
	readonly minutes: number;
	/** When they could be away at all. */
	readonly spans: SpanSet;
}

const known = new WeakMap<ProofSpace, Map<number, readonly Leaver[]>>();

/**
 * Those of a limited department who could be away at some time; reckoned once. A booking that stands is away then and only then.
 * Undefined where time is over before they are known.
 */
export function leaversOf(
	space: ProofSpace,
	limit: number,
	isOver: () => boolean = never
): readonly Leaver[] | undefined {
	const byLimit = known.get(space) ?? new Map<number, readonly Leaver[]>();
	known.set(space, byLimit);
	let leavers = byLimit.get(limit);
	if (leavers) return leavers;
	leavers = findLeavers(space, limit, isOver);
	if (leavers) byLimit.set(limit, leavers);
	return leavers;
}

const never = (): boolean => false;

/** Spans in which somebody could be away, and the least minutes, by the list of windows: shared by all who have the same places. */
const absences = new WeakMap<ProofSpace, Map<Kind['windows'], Absence>>();

interface Absence {
	readonly minutes: number;
	readonly spans: SpanSet;
}

function absenceOf(space: ProofSpace, kind: Kind): Absence {
	const known = absences.get(space) ?? new Map<Kind['windows'], Absence>();
	absences.set(space, known);
	let absence = known.get(kind.windows);
	if (!absence) {
		const spans: Span[] = [];
		let minutes = Infinity;
		kind.windows.forEach((_, station) => {
			for (const use of space.usesAt(kind, station)) {
				minutes = Math.min(minutes, kind.minutes + (2 * (kind.walks[station] as number)) / 60);
				pushAwaySpans(space, kind, use, spans);
			}
		});
		known.set(kind.windows, (absence = { minutes, spans: spanSetOf(spans) }));
	}
	return absence;
}

function findLeavers(space: ProofSpace, limit: number, isOver: () => boolean): Leaver[] | undefined {
	const { instance } = space;
	const leavers: Leaver[] = [];
	for (const [index, kind] of instance.kinds.entries()) {
		if (kind.limit !== limit) continue;
		if (isOver()) return undefined;
		const { minutes, spans } = absenceOf(space, kind);
		if (minutes === Infinity) continue;
		leavers.push({ kind: index, standing: undefined, count: kind.members.length, minutes, spans });
	}
	for (const standing of instance.standing) {
		if (standing.limit !== limit) continue;
		const away = { from: standing.from - standing.walk, to: standing.to + standing.walk };
		leavers.push({ kind: -1, standing, count: 1, minutes: (away.to - away.from) / 60, spans: spanSetOf([away]) });
	}
	return leavers;
}

function pushAwaySpans(space: ProofSpace, kind: Kind, use: Use, spans: Span[]): void {
	const gap = space.gaps[use.gap] as Gap;
	const walk = kind.walks[gap.station] as number;
	const seconds = kind.minutes * 60;
	// Where starts follow each other at grid steps no longer than the absence, one span covers them all.
	if (gap.isEven && space.gridMinutes * 60 <= seconds + 2 * walk && isUnbroken(space, gap, use)) {
		spans.push({ from: space.instantOf(gap, use.lo) - walk, to: space.instantOf(gap, use.hi) + seconds + walk });
		return;
	}
	let open: { from: number; to: number } | undefined;
	for (let slot = use.lo; slot <= use.hi; slot++) {
		const at = space.instantOf(gap, slot);
		const span = { from: at - walk, to: at + seconds + walk };
		if (open && span.from <= open.to) open.to = span.to;
		else {
			open = span;
			spans.push(open);
		}
	}
}

/** True when the starts of a use are one grid step apart each. */
function isUnbroken(space: ProofSpace, gap: Gap, { lo, hi }: Use): boolean {
	return space.instantOf(gap, hi) - space.instantOf(gap, lo) === (hi - lo) * space.gridMinutes * 60;
}

/**
 * Leavers who together are away longer than the limit allows in the time in which they could be; empty when there are none, or
 * when time is over before they are found.
 */
export function findAwayCut(
	leavers: readonly Leaver[],
	maxAway: number,
	isOver: () => boolean
): { cut: readonly Leaver[]; unmetMinutes: number } {
	const marks = [...new Set(leavers.flatMap(({ spans }) => spans.flatMap((span) => [span.from, span.to])))].sort(
		(a, b) => a - b
	);
	const place = new Map(marks.map((mark, index) => [mark, index]));
	const supplies = marks.slice(1).map((mark, index) => (maxAway * (mark - (marks[index] as number))) / 60);
	const flow = largestFlow(
		{
			demands: leavers.map(({ count, minutes }) => count * minutes),
			ranges: leavers.map(({ spans }) => spans.flatMap((span) => [place.get(span.from) ?? 0, place.get(span.to) ?? 0])),
			supplies
		},
		isOver
	);
	if (!flow) return { cut: [], unmetMinutes: 0 };
	const { unmet, cut } = flow;
	return { cut: cut.map((index) => leavers[index] as Leaver), unmetMinutes: unmet };
}

/** Minutes of the limit in the time in which any of the leavers could be away. */
export function awayMinutesAvailable(leavers: readonly Leaver[], maxAway: number): number {
	return (maxAway * lengthOf(union(...leavers.map(({ spans }) => spans)))) / 60;
}
