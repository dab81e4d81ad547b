import type { SpanSet } from '../calendar/spans';
import type { DateSpan } from '../calendar/zone';
import { remembered } from '../kernel/remembered';
import { CellPatterns } from './cell-patterns';

/**
 * Span algebra on courses of patterns: one number per date, where equal numbers are equal spans of that date. A union or a
 * difference of two patterns is worked out once and then looked up, so that two years of spans are a few hundred look-ups,
 * and whole courses that are alike are one number too. Our own.
 */
export class PatternAlgebra {
	readonly cells: readonly DateSpan[];
	readonly #patterns: CellPatterns;
	readonly #courses: Int32Array[] = [];
	readonly #lengths: number[] = [];
	readonly #idsByHash = new Map<number, number[]>();
	readonly #results = [new Map<number, number>(), new Map<number, number>(), new Map<number, number>()] as const;

	constructor(cells: readonly DateSpan[]) {
		this.cells = cells;
		this.#patterns = new CellPatterns(cells);
		this.courseIdOf(new Int32Array(cells.length));
	}

	/** The number of a span set's course; 0 is the empty one. */
	courseOfSpans(spans: SpanSet): number {
		return this.courseIdOf(this.#patterns.of(spans));
	}

	/** The course of a number: a pattern for each date. */
	course(id: number): Int32Array {
		return this.#courses[id] as Int32Array;
	}

	/** Start, end, start, end of a pattern, in seconds from the beginning of its date. */
	pattern(id: number): readonly number[] {
		return this.#patterns.pattern(id);
	}

	/** The number of a course given by its patterns; it must not be changed afterwards. */
	courseIdOf(course: Int32Array): number {
		let hash = 0;
		for (let cell = 0; cell < course.length; cell++) hash = (Math.imul(hash, 31) + (course[cell] as number)) | 0;
		const ids = remembered(this.#idsByHash, hash, () => []);
		const known = ids.find((id) => isSame(this.course(id), course));
		if (known !== undefined) return known;
		const id = this.#courses.push(course) - 1;
		ids.push(id);
		return id;
	}

	/** What lies in any of the courses. */
	unionOf(ids: readonly number[]): number {
		return ids.reduce((sum, id) => this.#combined(0, sum, id), 0);
	}

	/** What lies in `a` and not in `b`. */
	minus(a: number, b: number): number {
		return this.#combined(1, a, b);
	}

	/** What lies in both. */
	both(a: number, b: number): number {
		return this.#combined(2, a, b);
	}

	/** Seconds of a pattern. */
	lengthOf(pattern: number): number {
		let length = this.#lengths[pattern];
		if (length === undefined) {
			length = this.pattern(pattern).reduce((sum, at, place) => sum + (place % 2 === 0 ? -at : at), 0);
			this.#lengths[pattern] = length;
		}
		return length;
	}

	#combined(way: 0 | 1 | 2, a: number, b: number): number {
		if (a === b) return way === 1 ? 0 : a;
		if (b === 0) return way === 2 ? 0 : a;
		if (a === 0) return way === 0 ? b : 0;
		const [one, other] = [this.course(a), this.course(b)];
		const known = this.#results[way];
		const result = new Int32Array(one.length);
		for (let cell = 0; cell < result.length; cell++) {
			const [x, y] = [one[cell] as number, other[cell] as number];
			result[cell] = remembered(known, x * 0x1000000 + y, () =>
				this.#patterns.idOf(combined(way, this.pattern(x), this.pattern(y)))
			);
		}
		return this.courseIdOf(result);
	}
}

/** Union (0), difference (1) or intersection (2) of two patterns, by their bounds in order. */
function combined(way: 0 | 1 | 2, a: readonly number[], b: readonly number[]): number[] {
	const bounds = [...new Set([...a, ...b])].sort((x, y) => x - y);
	const result: number[] = [];
	for (let place = 0; place + 1 < bounds.length; place++) {
		const [from, to] = [bounds[place] as number, bounds[place + 1] as number];
		const [inA, inB] = [holds(a, from), holds(b, from)];
		if (way === 0 ? !(inA || inB) : !(inA && inB === (way === 2))) continue;
		if (result.at(-1) === from) result[result.length - 1] = to;
		else result.push(from, to);
	}
	return result;
}

function holds(pattern: readonly number[], at: number): boolean {
	for (let place = 0; place < pattern.length; place += 2) {
		if ((pattern[place] as number) <= at && at < (pattern[place + 1] as number)) return true;
	}
	return false;
}

function isSame(a: Int32Array, b: Int32Array): boolean {
	for (let cell = 0; cell < a.length; cell++) if (a[cell] !== b[cell]) return false;
	return true;
}
