import type { Building } from './building';
import type { DayGrid } from './day-grid';

/**
 * Which doors may be opened and which areas can be reached in every interval of a grid, while the same grants are in force.
 *
 * The idea: reach spreads from the outside areas through doors, as a search of the building does, but for all intervals
 * together: an area's row of bits grows by what its neighbor's row and the door's row have in common, until nothing grows.
 * Cost: doors x words, a few times over. Our own.
 */
export interface DayReach {
	/** By area: `words` of the grid for each. */
	readonly reach: Uint32Array;
	/** By type of day: a bit for each door that may be opened at some time in it. */
	readonly opened: Uint32Array;
	/** As `opened`, while the area from which the door leads can be reached. */
	readonly met: Uint32Array;
	/** Words for each type in `opened` and `met`. */
	readonly doorWords: number;
}

/** Doors (by place) and the intervals in which they are open. */
export interface GridPart {
	readonly doors: readonly number[];
	readonly bits: Uint32Array;
}

/** Finds what grants open and reach; keeps its room for the next call. */
export class DayReachFinder {
	readonly #building: Building;
	readonly #grid: DayGrid;
	readonly #open: Uint32Array;
	readonly #isTouched: Uint8Array;

	constructor(building: Building, grid: DayGrid) {
		this.#building = building;
		this.#grid = grid;
		this.#open = new Uint32Array(building.doors.length * grid.words);
		this.#isTouched = new Uint8Array(building.doors.length);
	}

	find(parts: readonly GridPart[]): DayReach {
		const { words } = this.#grid;
		const touched: number[] = [];
		for (const { doors, bits } of parts) {
			for (const door of doors) {
				const start = door * words;
				if (this.#isTouched[door] !== 1) {
					this.#isTouched[door] = 1;
					touched.push(door);
					this.#open.set(bits, start);
				} else for (let word = 0; word < words; word++) or(this.#open, start + word, bits[word] as number);
			}
		}
		const reach = this.#spread();
		const found = { reach, ...this.#doorsByType(touched, reach) };
		for (const door of touched) this.#isTouched[door] = 0;
		return found;
	}

	#spread(): Uint32Array {
		const { areaIds, outside, doors, doorsByArea } = this.#building;
		const { words } = this.#grid;
		const reach = new Uint32Array(areaIds.length * words);
		const queue = [...outside];
		const isQueued = new Uint8Array(areaIds.length);
		for (const area of outside) {
			reach.fill(0xffffffff, area * words, (area + 1) * words);
			isQueued[area] = 1;
		}
		for (let area = queue.pop(); area !== undefined; area = queue.pop()) {
			isQueued[area] = 0;
			for (const place of doorsByArea[area] as readonly number[]) {
				const { from, to, isExitFree } = doors[place] as Building['doors'][number];
				const isFree = from !== area && isExitFree;
				if (!isFree && this.#isTouched[place] !== 1) continue;
				const beyond = from === area ? to : from;
				if (!this.#grow(reach, area, beyond, isFree ? null : place) || isQueued[beyond] === 1) continue;
				isQueued[beyond] = 1;
				queue.push(beyond);
			}
		}
		return reach;
	}

	/** Adds to an area what can be reached of its neighbor, through a door or freely; true when something was new. */
	#grow(reach: Uint32Array, area: number, beyond: number, door: number | null): boolean {
		const { words } = this.#grid;
		const [source, target] = [area * words, beyond * words];
		let isNew = false;
		for (let word = 0; word < words; word++) {
			let bits = reach[source + word] as number;
			if (door !== null) bits &= this.#open[door * words + word] as number;
			if ((bits & ~(reach[target + word] as number)) === 0) continue;
			or(reach, target + word, bits);
			isNew = true;
		}
		return isNew;
	}

	#doorsByType(touched: readonly number[], reach: Uint32Array): Omit<DayReach, 'reach'> {
		const { words, types } = this.#grid;
		const doorWords = (this.#building.doors.length + 31) >>> 5;
		const [opened, met] = [new Uint32Array(types.length * doorWords), new Uint32Array(types.length * doorWords)];
		for (const door of touched) {
			const before = (this.#building.doors[door]?.from as number) * words;
			types.forEach(({ firstWord, endWord }, type) => {
				const at = type * doorWords + (door >>> 5);
				for (let word = firstWord; word < endWord; word++) {
					const bits = this.#open[door * words + word] as number;
					if (bits === 0) continue;
					or(opened, at, 1 << (door & 31));
					if ((bits & (reach[before + word] as number)) === 0) continue;
					or(met, at, 1 << (door & 31));
					break;
				}
			});
		}
		return { opened, met, doorWords };
	}
}

function or(bits: Uint32Array, word: number, more: number): void {
	bits[word] = (bits[word] as number) | more;
}

/** True when an area can be reached in every interval from `first` to before `end`. */
export function isReached({ reach }: DayReach, words: number, area: number, first: number, end: number): boolean {
	const start = area * words;
	for (let bit = first; bit < end; bit++) {
		if ((((reach[start + (bit >>> 5)] as number) >>> (bit & 31)) & 1) === 0) return false;
	}
	return true;
}
