import { byCodeUnits } from '../kernel/compare';
import { type Leaver, awayMinutesAvailable, findAwayCut, leaversOf } from './away-proof';
import type { Instance, Kind, Limit } from './instance';
import { ProofSpace } from './proof-space';
import { PlainSupply, leastLists } from './least-list';
import { PieceSupply } from './piece-supply';
import { holdsIn } from './restate';
import { type StationCut, stationCutOf } from './station-cut';
import { type Shortfall, piecesOf } from './shortfalls';

/**
 * Why people cannot all be booked, proved from the document alone: the plan only says who is to be explained, and never enters a
 * proof. A proof counts time: its people ask for more of it than there is, wherever they may go.
 */
export interface Proofs {
	readonly shortfalls: readonly Shortfall[];
	/** Reason of each person explained. */
	readonly reasons: ReadonlyMap<string, Shortfall['kind']>;
}

/**
 * Proves what it can about `unbooked` people, in the lenient reading of the puzzle; told is only what holds in the strict
 * reading as well, number by number. What is not proved when time is over is not told.
 */
export function proveShortfalls(
	space: ProofSpace,
	strict: Instance,
	unbooked: ReadonlySet<string>,
	isOver: () => boolean
): Proofs {
	const { instance } = space;
	const other = instance === strict ? undefined : new ProofSpace(strict);
	const shortfalls: Shortfall[] = [];
	const reasons = new Map<string, Shortfall['kind']>();
	const note = (shortfall: Shortfall): void => {
		if (other && !holdsIn(other, shortfall)) return;
		shortfalls.push(shortfall);
		for (const person of shortfall.people) {
			if (unbooked.has(person) && !reasons.has(person)) reasons.set(person, shortfall.kind);
		}
	};
	instance.kinds.forEach((kind, index) => {
		if (space.isUsable(index)) return;
		const hasWindow = kind.windows.some((window) => window !== null);
		for (const id of idsOf(instance, kind)) {
			if (unbooked.has(id)) note(hasWindow ? allTaken(space, index, id) : noCommonTime(kind, id));
		}
	});
	const cut = stationCutOf(space, isOver);
	if (cut.unmetMinutes > 0) for (const one of stationShortfalls(space, cut, unbooked, reasons, isOver)) note(one);
	const limits = new Set(instance.people.flatMap(({ id, department }) => (unbooked.has(id) ? [department] : [])));
	instance.limits.forEach(({ department, maxAway }, limit) => {
		if (!limits.has(department) || isOver()) return;
		const found = findAwayCut(leaversOf(space, limit, isOver) ?? [], maxAway, isOver);
		if (found.unmetMinutes <= 0) return;
		for (const one of awayShortfalls(space, { department, maxAway }, found.cut, [unbooked, reasons], isOver)) note(one);
	});
	return { shortfalls, reasons };
}

/**
 * People whom any plan leaves unbooked, at the least: without any window, and with one. Of the away-limits only some are looked at,
 * since those of departments from which everybody is booked keep nobody out. Where time is over early, fewer are proved.
 */
export function leastLeftOut(
	space: ProofSpace,
	limits: ReadonlySet<number>,
	isOver: () => boolean
): { readonly withoutWindow: number; readonly withWindow: number } {
	const { instance } = space;
	let withoutWindow = 0;
	let blocked = 0;
	instance.kinds.forEach((kind, index) => {
		if (space.isUsable(index)) return;
		if (kind.windows.some((window) => window !== null)) blocked += kind.members.length;
		else withoutWindow += kind.members.length;
	});
	const cut = stationCutOf(space, isOver);
	const needs = cut.kinds.flatMap((kind) =>
		Array<number>((instance.kinds[kind] as Kind).members.length).fill(space.leastTaken(kind, isAllEven(space)))
	);
	const station = cut.unmetMinutes > 0 ? fewestFor(cut.unmetMinutes, needs) : 0;
	let away = 0;
	instance.limits.forEach(({ maxAway }, limit) => {
		if (!limits.has(limit) || isOver()) return;
		const found = findAwayCut(leaversOf(space, limit, isOver) ?? [], maxAway, isOver);
		const minutes = found.cut.flatMap((leaver) => Array<number>(leaver.count).fill(leaver.minutes));
		if (found.unmetMinutes > 0) away += fewestFor(found.unmetMinutes, minutes);
	});
	return { withoutWindow, withWindow: blocked + Math.max(station, away) };
}

function isAllEven(space: ProofSpace): boolean {
	return space.gaps.every(({ isEven }) => isEven);
}

/** How many of these at least must go so that what they need adds up to `unmet`. */
function fewestFor(unmet: number, needs: number[]): number {
	needs.sort((a, b) => b - a);
	let sum = 0;
	let count = 0;
	// Sums of minutes are whole; a hair less than one minute is no minute.
	while (sum < unmet - 1e-6 && count < needs.length) sum += needs[count++] as number;
	return count;
}

function idsOf(instance: Instance, kind: Kind): string[] {
	return kind.members.map((member) => instance.people[member]?.id ?? '');
}

function noCommonTime(kind: Kind, id: string): Shortfall {
	return {
		kind: 'no-common-time',
		people: [id],
		neededMinutes: kind.minutes,
		availableMinutes: 0,
		stretches: [],
		remedies: []
	};
}

/** Of somebody whose every start is taken by bookings that stand: no lane time at all is left for them. */
function allTaken(space: ProofSpace, kindIndex: number, id: string): Shortfall {
	const kind = space.instance.kinds[kindIndex] as Kind;
	const stations = kind.windows.flatMap((window, station) => (window ? [station] : []));
	return {
		kind: 'station-time',
		people: [id],
		neededMinutes: Math.min(...stations.map((station) => space.takenAt(kind, station, true))),
		availableMinutes: 0,
		stretches: [],
		remedies: []
	};
}

function stationShortfalls(
	space: ProofSpace,
	{ kinds }: StationCut,
	unbooked: ReadonlySet<string>,
	explained: ReadonlyMap<string, string>,
	isOver: () => boolean
): Shortfall[] {
	const { instance } = space;
	const candidates = kinds.flatMap((kind) =>
		idsOf(instance, instance.kinds[kind] as Kind).map((id) => ({ id, group: kind, need: space.leastTaken(kind, true) }))
	);
	for (const isFine of [false, true]) {
		const lists = leastLists(
			candidates,
			unbooked,
			explained,
			(groups) =>
				isFine ? new PlainSupply(groups, (some) => finePieces(space, some)) : new PieceSupply(space, groups),
			isOver
		);
		if (lists.length === 0) continue;
		return lists.map(({ people, needed, available, groups }) => ({
			kind: 'station-time',
			people: [...people].sort(byCodeUnits),
			neededMinutes: needed,
			availableMinutes: available,
			stretches: piecesOf(space, groups, isFine).stretches,
			remedies: []
		}));
	}
	return [];
}

function finePieces(space: ProofSpace, kinds: ReadonlySet<number>): number {
	const { isEven, minutes } = piecesOf(space, kinds, true);
	return isEven ? minutes : Infinity;
}

function awayShortfalls(
	space: ProofSpace,
	{ department, maxAway }: Limit,
	cut: readonly Leaver[],
	[unbooked, explained]: readonly [ReadonlySet<string>, ReadonlyMap<string, string>],
	isOver: () => boolean
): Shortfall[] {
	const { instance } = space;
	const candidates = cut.flatMap((leaver, group) => {
		const kind = instance.kinds[leaver.kind];
		const ids = kind ? idsOf(instance, kind) : [leaver.standing?.booking.person ?? ''];
		return ids.map((id) => ({ id, group, need: leaver.minutes }));
	});
	const availableTo = (groups: ReadonlySet<number>): number =>
		awayMinutesAvailable(
			[...groups].map((group) => cut[group] as Leaver),
			maxAway
		);
	const supplyOf = (groups: ReadonlySet<number>): PlainSupply => new PlainSupply(groups, availableTo);
	const lists = leastLists(candidates, unbooked, explained, supplyOf, isOver);
	return lists.map(({ people, needed, available }) => ({
		kind: 'away-limit',
		people: [...people].sort(byCodeUnits),
		department,
		neededMinutes: needed,
		availableMinutes: available,
		stretches: [],
		remedies: []
	}));
}
