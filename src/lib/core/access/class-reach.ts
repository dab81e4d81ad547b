import { remembered } from '../kernel/remembered';
import type { Building } from './building';
import type { CellPatterns } from './cell-patterns';
import type { AccessClass } from './classes';
import type { Contents, EntryContent } from './contents';
import { DayGrid } from './day-grid';
import { type DayReach, DayReachFinder } from './day-reach';

/**
 * What classes may open and reach, as stretches of dates in which the same assignments are in force: inside one, all days of a
 * type are alike. What the same grants reach is worked out once for all classes; the memory for that is bounded.
 */
export interface ClassReach {
	/** First date of each stretch, ascending; the first is minus infinity. */
	readonly starts: readonly number[];
	readonly reaches: readonly DayReach[];
}

/** Doors (1 by their places) that may be opened at some time, and of these the ones that can be got to then. */
export interface DoorsEver {
	readonly opened: Uint8Array;
	readonly met: Uint8Array;
}

/** Bytes of what is kept for classes to come. */
const mostKept = 64e6;

export class ClassReachFinder {
	readonly grid: DayGrid;
	readonly #cells: CellPatterns;
	readonly #contents: Contents;
	readonly #building: Building;
	readonly #finder: DayReachFinder;
	readonly #bitsBySchedule = new Map<number, Uint32Array>();
	readonly #kept = new Map<string, DayReach>();
	readonly #most: number;

	constructor(building: Building, cells: CellPatterns, contents: Contents, isHoliday: (day: number) => boolean) {
		const schedules = contents.schedules();
		this.grid = new DayGrid(
			cells,
			schedules.map(({ patterns }) => patterns),
			isHoliday
		);
		for (const { number, patterns } of schedules) this.#bitsBySchedule.set(number, this.grid.bitsOf(patterns));
		this.#building = building;
		this.#cells = cells;
		this.#contents = contents;
		this.#finder = new DayReachFinder(building, this.grid);
		const words = building.areaIds.length * this.grid.words + (this.grid.types.length * building.doors.length * 2) / 32;
		this.#most = Math.max(8, Math.floor(mostKept / (words * 4 + 1000)));
	}

	/** What a class may open and reach: while employed by the assignments in force, else what anybody can reach. */
	reachOf({ assignments, firstDay, lastDay }: AccessClass): ClassReach {
		const contents = assignments.map((place) => this.#contents.assignment(place));
		const starts = new Set([-Infinity, firstDay, lastDay + 1]);
		for (const { from, until } of contents) starts.add(from).add(until + 1);
		starts.delete(Infinity);
		const sorted = [...starts].sort((a, b) => a - b);
		return {
			starts: sorted,
			reaches: sorted.map((start) => {
				if (start < firstDay || start > lastDay) return this.#reachWith([]);
				return this.#reachWith(
					contents.flatMap(({ entries, from, until }) => (from <= start && start <= until ? entries : []))
				);
			})
		};
	}

	/** What a class may open on the dates `from` to `until` on which it is employed. */
	doorsOf({ firstDay, lastDay }: AccessClass, { starts, reaches }: ClassReach, from: number, until: number): DoorsEver {
		const doors = this.#building.doors.length;
		const ever = { opened: new Uint8Array(doors), met: new Uint8Array(doors) };
		const [first, last] = [Math.max(from, firstDay), Math.min(until, lastDay)];
		const types = this.grid.types.length;
		const seen = new Uint8Array(reaches.length * types);
		this.#cells.cells.forEach(({ day }, cell) => {
			if (day < first || day > last) return;
			const stretch = stretchAt(starts, day);
			const type = this.grid.typeOfCell[cell] as number;
			const at = stretch * types + type;
			if (seen[at] === 1) return;
			seen[at] = 1;
			const { opened, met, doorWords } = reaches[stretch] as DayReach;
			mark(ever.opened, opened, type * doorWords, doorWords);
			mark(ever.met, met, type * doorWords, doorWords);
		});
		return ever;
	}

	#reachWith(entries: readonly EntryContent[]): DayReach {
		const byNumber = new Map(entries.map((entry) => [entry.number, entry]));
		const key = [...byNumber.keys()].sort((a, b) => a - b).join();
		const found = remembered(this.#kept, key, () =>
			this.#finder.find(
				[...byNumber.values()].map(({ doors, schedule }) => ({
					doors,
					bits: this.#bitsBySchedule.get(schedule.number) as Uint32Array
				}))
			)
		);
		if (this.#kept.size > this.#most) this.#kept.delete(this.#kept.keys().next().value as string);
		return found;
	}
}

/** The place of the stretch that holds a date. */
export function stretchAt(starts: readonly number[], day: number): number {
	let place = starts.length - 1;
	while ((starts[place] as number) > day) place--;
	return place;
}

function mark(marks: Uint8Array, bits: Uint32Array, firstWord: number, words: number): void {
	for (let word = 0; word < words; word++) {
		let left = bits[firstWord + word] as number;
		while (left !== 0) {
			const bit = 31 - Math.clz32(left);
			marks[word * 32 + bit] = 1;
			left &= ~(1 << bit);
		}
	}
}
