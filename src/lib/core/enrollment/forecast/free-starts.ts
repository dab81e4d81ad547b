import { type Lane, free } from '../board';
import type { Kind } from '../instance';
import type { ForecastPuzzle } from './puzzle';

/**
 * Starts that the starting plan leaves free, by kind and day, in the order of time. Found when first asked for: most are never
 * needed. Kinds that may start at the same slots of a day, and take as long, share one list.
 */
export class FreeStarts {
	readonly #puzzle: ForecastPuzzle;
	/** The cells as the starting plan leaves them. */
	readonly #cells: Int32Array;
	readonly #byKind = new Map<number, Int32Array>();
	readonly #bySignature = new Map<string, Int32Array>();

	constructor(puzzle: ForecastPuzzle) {
		this.#puzzle = puzzle;
		this.#cells = Int32Array.from(puzzle.board.cells);
	}

	/** Cells at which a kind could start on a day (a place in `days`) as far as the starting plan goes. */
	of(kind: number, day: number): Int32Array {
		const key = kind * this.#puzzle.days.length + day;
		let found = this.#byKind.get(key);
		if (!found) {
			const { board } = this.#puzzle;
			const one = board.instance.kinds[kind] as Kind;
			const parts = this.#partsOf(one, day);
			const signature = `${day} ${one.duration} ${parts.map(({ unit, lo, hi }) => `${unit}:${lo}-${hi}`).join(' ')}`;
			found = this.#bySignature.get(signature) ?? this.#find(one, parts);
			this.#bySignature.set(signature, found);
			this.#byKind.set(key, found);
		}
		return found;
	}

	#partsOf(kind: Kind, day: number): { unit: number; lane: number; lo: number; hi: number }[] {
		const { board, desksOfDay } = this.#puzzle;
		return (desksOfDay[day] ?? []).flatMap(({ unit, lane }) => {
			const window = kind.windows[(board.lanes[lane] as Lane).station];
			if (!window) return [];
			const run = board.unitRun[unit] as number;
			const parts: { unit: number; lane: number; lo: number; hi: number }[] = [];
			for (let at = window.first[run] as number; at < (window.first[run + 1] as number); at++) {
				parts.push({ unit, lane, lo: window.lo[at] as number, hi: window.hi[at] as number });
			}
			return parts;
		});
	}

	#find(kind: Kind, parts: readonly { lane: number; lo: number; hi: number }[]): Int32Array {
		const { board } = this.#puzzle;
		const starts: { cell: number; at: number }[] = [];
		for (const { lane, lo, hi } of parts) {
			const { base, station } = board.lanes[lane] as Lane;
			const next = board.nextOf(kind, station);
			const at = board.instance.lattices[station]?.at as Float64Array;
			for (let slot = lo; slot <= hi; slot++) {
				let isFree = true;
				for (let cell = base + slot; isFree && cell < base + (next[slot] as number); cell++) {
					isFree = this.#cells[cell] === free;
				}
				if (isFree) starts.push({ cell: base + slot, at: at[slot] as number });
			}
		}
		starts.sort((a, b) => a.at - b.at || a.cell - b.cell);
		return Int32Array.from(starts, ({ cell }) => cell);
	}
}
