import { remembered } from '../kernel/remembered';
import type { AssignmentContent, ScheduleContent } from './contents';
import type { CellPatterns } from './cell-patterns';

/**
 * At which doors two assignments are open together, and on which dates.
 *
 * The idea: on which dates two schedules share an instant is found once, as a running count, so that each later question
 * about a range of dates is one subtraction; and doors that two assignments give by the same entries are asked about together.
 */
export class Meetings {
	readonly #cells: CellPatterns;
	readonly #firstDay: number;
	readonly #lastDay: number;
	readonly #countsBySchedules: Map<string, Int32Array>;
	readonly #byAssignments = new Map<string, readonly Meeting[]>();
	readonly #before: ReadonlyMap<string, readonly Meeting[]>;

	/** `before`: those of an earlier state with the same cells and the same numbers of contents, which are taken over. */
	constructor(cells: CellPatterns, before?: Meetings) {
		this.#cells = cells;
		const days = cells.cells.map(({ day }) => day);
		this.#firstDay = days.reduce((a, b) => Math.min(a, b), Infinity);
		this.#lastDay = days.reduce((a, b) => Math.max(a, b), -Infinity);
		this.#countsBySchedules = before ? before.#countsBySchedules : new Map<string, Int32Array>();
		this.#before = before ? before.#byAssignments : new Map<string, readonly Meeting[]>();
	}

	/** The doors that two assignments give at the same time on some date, or one assignment by two of its entries. */
	of(a: AssignmentContent, b: AssignmentContent, isOne: boolean): readonly Meeting[] {
		const key = `${isOne ? 'in' : ''} ${a.number} ${b.number}`;
		const known = this.#byAssignments.get(key) ?? this.#before.get(key) ?? this.#find(a, b, isOne);
		this.#byAssignments.set(key, known);
		return known;
	}

	/** True when the doors of a meeting are open together on one of the dates `from` to `until`. */
	isOn(meeting: Meeting, from: number, until: number): boolean {
		const [first, last] = [
			Math.max(from, meeting.from, this.#firstDay) - this.#firstDay,
			Math.min(until, meeting.until, this.#lastDay) - this.#firstDay
		];
		return first <= last && meeting.counts.some((days) => (days[last + 1] as number) > (days[first] as number));
	}

	#find(a: AssignmentContent, b: AssignmentContent, isOne: boolean): Meeting[] {
		const [from, until] = [Math.max(a.from, b.from), Math.min(a.until, b.until)];
		if (from > until) return [];
		const countsByDoor = new Map<number, Set<Int32Array>>();
		a.entries.forEach((one, place) => {
			for (const other of isOne ? b.entries.slice(place + 1) : b.entries) {
				const counts = this.#countsOf(one.schedule, other.schedule);
				if (counts.at(-1) === 0) continue;
				for (const door of commonDoors(one.doors, other.doors)) {
					remembered(countsByDoor, door, () => new Set<Int32Array>()).add(counts);
				}
			}
		});
		const byCounts = new Map<string, { doors: number[]; counts: readonly Int32Array[]; from: number; until: number }>();
		const numbers = new Map<Int32Array, number>();
		for (const [door, counts] of countsByDoor) {
			const key = [...counts].map((one) => remembered(numbers, one, () => numbers.size)).join();
			remembered(byCounts, key, () => ({ doors: [] as number[], counts: [...counts], from, until })).doors.push(door);
		}
		return [...byCounts.values()];
	}

	/** How many dates there are, from the first of the cells to before each, on which two schedules share an instant. */
	#countsOf(a: ScheduleContent, b: ScheduleContent): Int32Array {
		const [low, high] = a.number < b.number ? [a, b] : [b, a];
		return remembered(this.#countsBySchedules, `${low.number} ${high.number}`, () => {
			const days = this.#lastDay - this.#firstDay + 1;
			const counts = new Int32Array(days + 1);
			this.#cells.cells.forEach(({ day }, cell) => {
				const [one, other] = [low.patterns[cell] as number, high.patterns[cell] as number];
				if (one !== 0 && other !== 0 && this.#cells.doPatternsMeet(one, other)) counts[day - this.#firstDay + 1] = 1;
			});
			for (let at = 1; at <= days; at++) counts[at] = (counts[at] as number) + (counts[at - 1] as number);
			return counts;
		});
	}
}

/** Doors (by place) that are open together on the same dates, as far as these lie between two limits. */
export interface Meeting {
	readonly doors: readonly number[];
	/** Running counts of dates, for each two entries that give the doors. */
	readonly counts: readonly Int32Array[];
	readonly from: number;
	readonly until: number;
}

/** What two ascending lists have in common. */
function commonDoors(a: readonly number[], b: readonly number[]): number[] {
	const common: number[] = [];
	let at = 0;
	for (const door of a) {
		while (at < b.length && (b[at] as number) < door) at++;
		if (b[at] === door) common.push(door);
	}
	return common;
}
