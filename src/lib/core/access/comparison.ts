import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
import { type Work, unwatched } from '../kernel/work';
import { type Span, type SpanSet } from '../calendar/spans';
import type { Zone } from '../calendar/zone';
import type { Rollout } from '../document/schema';
import { type AccessClass, AccessModel } from './model';
import { PatternAlgebra } from './pattern-algebra';

/**
 * What differs between the access of two rollouts, over the second one's horizon.
 *
 * The idea: people who are in one class before and in one class after change alike, and are reasoned about once. Access is
 * written as one pattern per date of the second rollout's clock, so that the same difference found twice is one number.
 * Employment limits a difference to some dates, and is not written into it: courses of their own for every date on which
 * somebody starts would fill the memory. Invariant: equal changes have one number, no person stands in two of `classes`,
 * and each class's doors are in order.
 * Our own.
 */
export class Comparison {
	readonly zone: Zone;
	/** The horizon's instants. */
	readonly range: Span;
	readonly classes: readonly ChangedClass[];
	readonly #algebra: PatternAlgebra;
	readonly #changes: Change[] = [];
	readonly #differences = new Map<number, { readonly gained: number; readonly lost: number }>();
	readonly #idByQuestion = new Map<string, number | null>();
	readonly #idsByHash = new Map<number, number[]>();

	constructor(before: Rollout, after: Rollout, work: Work = unwatched) {
		const models = [new AccessModel(before, after.horizon), new AccessModel(after, after.horizon)] as const;
		const [, { zone, range }] = models;
		this.zone = zone;
		this.range = range;
		this.#algebra = new PatternAlgebra(zone.datesIn(range));
		const { cells } = this.#algebra;
		// A clock turned back past midnight shows a date once more after the next has begun.
		const isInOrder = cells.every(({ day }, place) => place === 0 || day > (cells[place - 1]?.day ?? day));
		const hasSameDates = isInOrder && models[0].zone.name === zone.name;
		const sides = [
			new Side(models[0], this.#algebra, hasSameDates),
			new Side(models[1], this.#algebra, hasSameDates)
		] as const;
		const pairs = pairsOf(models);
		const classes = new Map<string, { people: string[]; doors: readonly string[]; changes: readonly number[] }>();
		pairs.forEach(({ people, was, is }, place) => {
			if (place % 50 === 0) work.report(place, pairs.length, 'groups of people who are alike');
			const { doors, changes } = this.#changesOf(sides, was, is);
			if (doors.length === 0) return;
			const known = remembered(classes, `${doors.join('\n')}|${changes.join()}`, () => ({
				people: [] as string[],
				doors,
				changes
			}));
			for (const person of people) known.people.push(person);
		});
		this.classes = [...classes.values()].map((one) => ({ ...one, people: one.people.sort(byCodeUnits) }));
		work.report(pairs.length, pairs.length);
	}

	/** How many different changes there are; they are numbered from 0. */
	get changeCount(): number {
		return this.#changes.length;
	}

	/** Seconds gained and lost by a change. */
	secondsOf(change: number): { readonly gained: number; readonly lost: number } {
		const seconds = { gained: 0, lost: 0 };
		for (const { gained, lost, first, last } of this.#changes[change] as Change) {
			const [more, less] = [this.#algebra.course(gained), this.#algebra.course(lost)];
			for (let cell = first; cell <= last; cell++) {
				seconds.gained += this.#algebra.lengthOf(more[cell] ?? 0);
				seconds.lost += this.#algebra.lengthOf(less[cell] ?? 0);
			}
		}
		return seconds;
	}

	/** The same for changes that differ only in the dates on which somebody is employed. */
	kindOf(change: number): string {
		const parts = (this.#changes[change] as Change).flatMap(({ gained, lost }) =>
			gained === 0 && lost === 0 ? [] : `${gained}/${lost}`
		);
		return parts.filter((part, place) => part !== parts[place - 1]).join();
	}

	/** The spans gained or lost by a change, or the first few; put together anew at each call, since all would fill the memory. */
	spansOf(change: number, which: 'gained' | 'lost', most = Infinity): SpanSet {
		const spans: Span[] = [];
		for (const part of this.#changes[change] as Change) {
			const patterns = this.#algebra.course(part[which]);
			for (let cell = part.first; cell <= part.last; cell++) {
				const start = this.#algebra.cells[cell]?.from ?? 0;
				const pattern = this.#algebra.pattern(patterns[cell] ?? 0);
				for (let place = 0; place < pattern.length; place += 2) {
					const [from, to] = [start + (pattern[place] as number), start + (pattern[place + 1] as number)];
					const before = spans.at(-1);
					if (before?.to === from) spans[spans.length - 1] = { from: before.from, to };
					else if (spans.length === most) return spans;
					else spans.push({ from, to });
				}
			}
		}
		return spans;
	}

	#changesOf(sides: readonly [Side, Side], was: AccessClass | undefined, is: AccessClass | undefined): DoorChanges {
		const [before, after] = [sides[0].doorsOf(was), sides[1].doorsOf(is)];
		const limits = [sides[0].limitsOf(was ?? is), sides[1].limitsOf(is ?? was)] as const;
		const changed: [door: string, change: number][] = [];
		for (const door of new Set([...before.keys(), ...after.keys()])) {
			const id = this.#changeId(before.get(door) ?? 0, after.get(door) ?? 0, limits);
			if (id !== null) changed.push([door, id]);
		}
		changed.sort(([a], [b]) => byCodeUnits(a, b));
		return { doors: changed.map(([door]) => door), changes: changed.map(([, change]) => change) };
	}

	/** The number of what differs between two courses, each held to its limits; null where nothing does. */
	#changeId(old: number, now: number, [was, is]: readonly [Limits, Limits]): number | null {
		const areAlike = was.first === is.first && was.last === is.last;
		if (old === now && (areAlike || old === 0)) return null;
		return remembered(this.#idByQuestion, `${old}|${now}|${was.first}|${was.last}|${is.first}|${is.last}`, () => {
			const parts = areAlike ? [{ ...this.#difference(old, now), ...was }] : this.#partsOf(old, now, was, is);
			return this.#numberOf(parts);
		});
	}

	/** The dates on which somebody is employed before only, after only, and both, each with what differs there. */
	#partsOf(old: number, now: number, was: Limits, is: Limits): Change {
		const starts = [was.first, was.last + 1, is.first, is.last + 1].sort((a, b) => a - b);
		return starts.flatMap((first, place) => {
			const last = (starts[place + 1] ?? first) - 1;
			const [isOld, isNow] = [was, is].map((limits) => limits.first <= first && last <= limits.last);
			if (first > last || !(isOld || isNow)) return [];
			return [{ ...this.#difference(isOld ? old : 0, isNow ? now : 0), first, last }];
		});
	}

	#difference(old: number, now: number): { readonly gained: number; readonly lost: number } {
		return remembered(this.#differences, old * 0x1000000 + now, () => ({
			gained: this.#algebra.minus(now, old),
			lost: this.#algebra.minus(old, now)
		}));
	}

	/** The number of a change by what it comes to, date by date; however it came about, the same has one number. */
	#numberOf(change: Change): number | null {
		let hash = 0;
		this.#eachDate(change, (cell, gained, lost) => {
			hash = (Math.imul(hash ^ cell, 0x01000193) + Math.imul(gained, 31) + lost) | 0;
			return true;
		});
		if (!this.#isAny(change)) return null;
		const ids = remembered(this.#idsByHash, hash, () => []);
		const known = ids.find((id) => this.#isSame(this.#changes[id] as Change, change));
		if (known !== undefined) return known;
		const id = this.#changes.push(change) - 1;
		ids.push(id);
		return id;
	}

	#isAny(change: Change): boolean {
		return !this.#eachDate(change, () => false);
	}

	#isSame(a: Change, b: Change): boolean {
		const dates: number[] = [];
		this.#eachDate(a, (...date) => dates.push(...date) > 0);
		let at = 0;
		const isPrefix = this.#eachDate(b, (cell, gained, lost) => {
			const isAlike = dates[at] === cell && dates[at + 1] === gained && dates[at + 2] === lost;
			at += 3;
			return isAlike;
		});
		return isPrefix && at === dates.length;
	}

	/** Visits the dates on which something changes until a visit says stop (false); true when none did. */
	#eachDate(change: Change, visit: (cell: number, gained: number, lost: number) => boolean): boolean {
		for (const { gained, lost, first, last } of change) {
			const [more, less] = [this.#algebra.course(gained), this.#algebra.course(lost)];
			for (let cell = first; cell <= last; cell++) {
				const [x, y] = [more[cell] as number, less[cell] as number];
				if ((x !== 0 || y !== 0) && !visit(cell, x, y)) return false;
			}
		}
		return true;
	}
}

/** People who gain and lose the same at the same doors. `changes[i]` is what changes at `doors[i]`. */
export interface ChangedClass {
	/** Ids, sorted. */
	readonly people: readonly string[];
	/** Ids, sorted. */
	readonly doors: readonly string[];
	readonly changes: readonly number[];
}

/** What is gained and lost, as numbers of courses, in stretches of dates by their places, in order. */
type Change = readonly ({ readonly gained: number; readonly lost: number } & Limits)[];

interface DoorChanges {
	readonly doors: readonly string[];
	readonly changes: readonly number[];
}

/** Places of the first and the last date on which somebody is employed; `first` above `last` where on none. */
interface Limits {
	readonly first: number;
	readonly last: number;
}

/** One of the two rollouts: what its classes may open, as numbers of courses. */
class Side {
	readonly #model: AccessModel;
	readonly #algebra: PatternAlgebra;
	/** Its dates are those of the comparison, one after the other: employment begins and ends between two of them. */
	readonly #hasSameDates: boolean;
	readonly #courseBySpans = new Map<SpanSet, number>();
	readonly #doorsByAssignments = new Map<string, ReadonlyMap<string, number>>();
	readonly #doorsByClass = new Map<AccessClass, ReadonlyMap<string, number>>();

	constructor(model: AccessModel, algebra: PatternAlgebra, hasSameDates: boolean) {
		this.#model = model;
		this.#algebra = algebra;
		this.#hasSameDates = hasSameDates;
	}

	/** The course of each door that a class may ever open; `limitsOf` has yet to be applied. */
	doorsOf(one: AccessClass | undefined): ReadonlyMap<string, number> {
		if (!one) return new Map();
		const doors = this.#doorsWhileEmployed(one.assignments);
		if (this.#hasSameDates) return doors;
		return remembered(this.#doorsByClass, one, () => {
			const employed = this.#algebra.courseOfSpans(one.employed);
			return new Map([...doors].map(([door, course]) => [door, this.#algebra.both(course, employed)]));
		});
	}

	limitsOf(one: AccessClass | undefined): Limits {
		const { cells } = this.#algebra;
		if (!one || !this.#hasSameDates) return { first: 0, last: cells.length - 1 };
		const first = cells.findIndex(({ day }) => day >= one.firstDay);
		return { first: first < 0 ? cells.length : first, last: cells.findLastIndex(({ day }) => day <= one.lastDay) };
	}

	#doorsWhileEmployed(assignments: readonly number[]): ReadonlyMap<string, number> {
		return remembered(this.#doorsByAssignments, assignments.join(), () => {
			const partsByDoor = new Map<number, Set<number>>();
			for (const assignment of assignments) {
				for (const door of this.#model.doorsGrantedBy(assignment)) {
					const parts = remembered(partsByDoor, door, () => new Set());
					for (const grant of this.#model.grantsOf(assignment, door)) {
						const spans = this.#model.spansOfGrant(grant);
						parts.add(remembered(this.#courseBySpans, spans, () => this.#algebra.courseOfSpans(spans)));
					}
				}
			}
			const unions = new Map<string, number>();
			return new Map(
				[...partsByDoor].map(([door, parts]) => {
					const ids = [...parts].sort((a, b) => a - b);
					const course = remembered(unions, ids.join(), () => this.#algebra.unionOf(ids));
					return [this.#model.building.doors[door]?.id as string, course] as const;
				})
			);
		});
	}
}

interface Pair {
	readonly people: string[];
	readonly was: AccessClass | undefined;
	readonly is: AccessClass | undefined;
}

/** People by their class before and after. */
function pairsOf([before, after]: readonly [AccessModel, AccessModel]): readonly Pair[] {
	const pairs = new Map<AccessClass | undefined, Map<AccessClass | undefined, Pair>>();
	const people = new Set([...before.rollout.people, ...after.rollout.people].map(({ id }) => id));
	for (const person of people) {
		const [was, is] = [before.findClass(person), after.findClass(person)];
		const ofOld = remembered(pairs, was, () => new Map<AccessClass | undefined, Pair>());
		remembered(ofOld, is, () => ({ people: [] as string[], was, is })).people.push(person);
	}
	return [...pairs.values()].flatMap((ofOld) => [...ofOld.values()]);
}
