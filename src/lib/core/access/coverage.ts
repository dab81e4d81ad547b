import { epochDayOf } from '../calendar/local-date';
import { type Span, type SpanSet, spanSetOf } from '../calendar/spans';
import type { Absence, Person, ShiftPattern } from '../document/schema';
import { groupBy } from '../kernel/group-by';
import { remembered } from '../kernel/remembered';
import { type ClassReach, stretchAt } from './class-reach';
import { type DayReach, isReached } from './day-reach';
import type { AccessClass, AccessModel } from './model';
import { type WorkedShift, shiftsOfPattern } from './shifts';

/**
 * Whether people can work their shifts: a shift is covered when from early arrival to its end each of the person's work areas
 * can be reached.
 *
 * The idea: people of one class with the same pattern, work areas and go-live form a cohort, which is judged once; only
 * absences are a person's own. Shifts that ask for the same intervals of the day grid are of one kind, and a kind is judged
 * once for all dates on which the same assignments are in force. Cost: cohorts x shifts, each a look at a table. Our own.
 */

/** A shift that is not covered. */
export interface UncoveredShift {
	readonly shift: WorkedShift;
	/** True when an uncovered minute lies on a listed holiday. */
	readonly isOnHoliday: boolean;
}

/** When and where a shift is not covered. */
export interface Gaps {
	/** The instants at which a work area is out of reach, early arrival included. */
	readonly spans: SpanSet;
	/** Places of the work areas that are out of reach then. */
	readonly areas: readonly number[];
}

/** The uncovered shifts of people who are alike, in the order of time; the same object for all of them, and for a later state in which they are the same. */
export interface CohortCoverage {
	readonly uncovered: readonly UncoveredShift[];
}

/** The part of a shift in one cell: the bits of the intervals of the grid, and the type of day. */
interface Piece {
	readonly day: number;
	readonly first: number;
	readonly end: number;
	readonly type: number;
}

/** A shift with what must be covered of it. */
interface NeededShift extends Span {
	readonly shift: WorkedShift;
	readonly pieces: readonly Piece[];
	/** Shifts of a pattern of one kind need the same intervals; kinds are counted from 0. */
	readonly kind: number;
	/** The two findings there can be: made once, since there are millions. */
	readonly uncovered: UncoveredShift;
	readonly uncoveredOnHoliday: UncoveredShift;
}

interface Latest {
	readonly one: AccessClass;
	readonly content: string;
	reach: ClassReach | undefined;
	readonly cohorts: Map<Needs, CohortCoverage>;
}

/** What of a person decides, beside the class, which shifts are covered: one object for everybody with the same. */
interface Needs {
	/** The work areas as text. */
	readonly areas: string;
}

type OfAreas = Map<string, Needs>;

/** A class object stands for the same people in every state that has it. */
const alikeByClass = new WeakMap<AccessClass, readonly (readonly Person[])[]>();

const nothing: CohortCoverage = { uncovered: [] };

type Judgment = 0 | 1 | 2;
const [covered, uncoveredOrdinarily, uncoveredOnHoliday] = [0, 1, 2] as const;

/** Finds uncovered shifts person by person; keep one finder for many people. */
export class CoverageFinder {
	readonly #model: AccessModel;
	readonly #shiftsByPattern = new Map<string, readonly NeededShift[]>();
	readonly #cohorts = new Map<string, CohortCoverage>();
	readonly #cohortsBefore: ReadonlyMap<string, CohortCoverage>;
	readonly #goLiveByWave: ReadonlyMap<string, number>;
	readonly #absencesByPerson: ReadonlyMap<string, readonly Absence[]>;
	readonly #needsByPattern = new Map<string | null, Map<string | null, OfAreas>>();
	readonly #textByPattern = new Map<string, number>();
	/** What is known of each kind of shift, by pattern and areas; -1 where nothing is. */
	readonly #judgments = new WeakMap<DayReach, Map<string, Int8Array>>();
	#latest: Latest | undefined;

	/** `before`: the finder of an earlier state, whose results are taken over where they are still true. */
	constructor(model: AccessModel, before?: CoverageFinder) {
		this.#model = model;
		const { absences, enrollment } = model.rollout;
		this.#goLiveByWave = new Map(
			enrollment.waves.flatMap(({ id, goLive }) => (goLive === null ? [] : [[id, epochDayOf(goLive)]]))
		);
		const isSame = before && before.#model.building === model.building && before.#model.cells === model.cells;
		this.#cohortsBefore = isSame ? before.#cohorts : new Map<string, CohortCoverage>();
		this.#absencesByPerson =
			before && before.#model.rollout.absences === absences
				? before.#absencesByPerson
				: groupBy(absences, ({ person }) => person);
	}

	/** The shifts of a person that are checked and not covered, in the order of time; `one` as in `cohortOf`. */
	uncoveredOf(person: Person, one = this.#model.findClass(person.id)): readonly UncoveredShift[] {
		const { uncovered } = this.cohortOf(person, one);
		const absences = this.absencesOf(person);
		if (absences.length === 0 || uncovered.length === 0) return uncovered;
		const away = absences.map(({ from, until }) => ({
			from: from === null ? -Infinity : epochDayOf(from),
			until: until === null ? Infinity : epochDayOf(until)
		}));
		return uncovered.filter(({ shift: { day } }) => !away.some(({ from, until }) => from <= day && day <= until));
	}

	/** The people of a class by what they need: the shifts that are covered are the same, absences not looked at. */
	alikeIn(one: AccessClass): readonly (readonly Person[])[] {
		let groups = alikeByClass.get(one);
		if (!groups) {
			const byNeeds = new Map<Needs, Person[]>();
			for (const person of one.people) {
				if (person.shiftPattern === null || person.workAreas.length === 0) continue;
				remembered(byNeeds, this.#needs(person), () => []).push(person);
			}
			alikeByClass.set(one, (groups = [...byNeeds.values()]));
		}
		return groups;
	}

	/** The absences of a person. */
	absencesOf(person: Person): readonly Absence[] {
		return this.#absencesByPerson.get(person.id) ?? noAbsences;
	}

	/** The uncovered shifts of everybody like a person, absences not looked at; `one` is the person's class, where it is at hand. */
	cohortOf(person: Person, one = this.#model.findClass(person.id)): CohortCoverage {
		const { shiftPattern, workAreas, wave } = person;
		if (shiftPattern === null || workAreas.length === 0 || !one) return nothing;
		const needs = this.#needs(person);
		return remembered(this.#of(one).cohorts, needs, () => {
			const areas = needs.areas;
			const goLive = (wave === null ? undefined : this.#goLiveByWave.get(wave)) ?? this.#model.from;
			const { content } = this.#of(one);
			const key = `${content} ${one.firstDay} ${one.lastDay} ${goLive} ${this.#numberOf(shiftPattern)} ${areas}`;
			return remembered(this.#cohorts, key, () => {
				const known = this.#cohortsBefore.get(key);
				if (known) return known;
				const uncovered = this.#judgeAll(one, shiftPattern, this.#placesOf(person), goLive);
				return uncovered.length === 0 ? nothing : { uncovered };
			});
		});
	}

	/** When a shift of a person is not covered, and which work areas are out of reach; `one` as in `cohortOf`. */
	gapsOf(person: Person, shift: WorkedShift, one = this.#model.findClass(person.id)): Gaps {
		return one ? gapsOf(this.#model, this.#reachOf(one), this.#placesOf(person), shift) : { spans: [], areas: [] };
	}

	/** What was found of the class that was asked for last: people are mostly looked at class by class. */
	#of(one: AccessClass): Latest {
		if (this.#latest?.one !== one) {
			this.#latest = { one, content: this.#model.contentOf(one), reach: undefined, cohorts: new Map() };
		}
		return this.#latest;
	}

	#reachOf(one: AccessClass): ClassReach {
		const latest = this.#of(one);
		if (!latest.reach) {
			latest.reach = this.#model.reachFinder.reachOf(one);
			// Kept as well, since it is asked for later and the reach will be gone.
			this.#model.doorsOf(one, latest.reach);
		}
		return latest.reach;
	}

	#needs({ shiftPattern, wave, workAreas }: Person): Needs {
		const areas = workAreas.length === 1 ? `=${workAreas[0]}` : JSON.stringify(workAreas);
		const ofPattern = remembered(this.#needsByPattern, shiftPattern, () => new Map<string | null, OfAreas>());
		const ofWave = remembered(ofPattern, wave, () => new Map<string, Needs>());
		return remembered(ofWave, areas, () => ({ areas }));
	}

	#placesOf(person: Person): number[] {
		const places = person.workAreas.map((id) => this.#model.building.areaPlaceById.get(id) as number);
		return [...new Set(places)].sort((a, b) => a - b);
	}

	/** A number for what a pattern says, on which holidays there are, and on how early people arrive. */
	#numberOf(patternId: string): number {
		return remembered(this.#textByPattern, patternId, () => {
			const { rollout, contents, holidays } = this.#model;
			const pattern = rollout.shiftPatterns.find(({ id }) => id === patternId) as ShiftPattern;
			const days = [...holidays].map(([day, { kind }]) => [day, kind]);
			const text = [{ ...pattern, id: null, name: null }, days, rollout.site.arriveEarlyMinutes];
			return contents.numberOf(`pattern ${JSON.stringify(text)}`);
		});
	}

	#shiftsOf(patternId: string): readonly NeededShift[] {
		return remembered(this.#shiftsByPattern, patternId, () => {
			const { from, until, holidays, zone, patterns, rollout } = this.#model;
			const pattern = patterns.get(patternId);
			if (!pattern) return [];
			const kindByText = new Map<string, number>();
			return shiftsOfPattern(pattern, from, until, holidays, zone).map((shift) => {
				const start = shift.from - rollout.site.arriveEarlyMinutes * 60;
				const pieces = piecesOf(this.#model, start, shift.to);
				const text = pieces.map(({ first, end, type }) => `${first} ${end} ${type}`).join();
				return {
					shift,
					from: start,
					to: shift.to,
					pieces,
					kind: remembered(kindByText, text, () => kindByText.size),
					uncovered: { shift, isOnHoliday: false },
					uncoveredOnHoliday: { shift, isOnHoliday: true }
				};
			});
		});
	}

	#judgeAll(one: AccessClass, patternId: string, areas: readonly number[], goLive: number): UncoveredShift[] {
		const shifts = this.#shiftsOf(patternId);
		const { starts, reaches } = this.#reachOf(one);
		const text = `${areas.join()} ${patternId}`;
		const kinds = 1 + shifts.reduce((most, { kind }) => Math.max(most, kind), 0);
		const tables = reaches.map((reach) => {
			const ofReach = this.#judgments.get(reach) ?? new Map<string, Int8Array>();
			this.#judgments.set(reach, ofReach);
			return remembered(ofReach, text, () => new Int8Array(kinds).fill(-1));
		});
		const first = Math.max(one.firstDay, goLive);
		const uncovered: UncoveredShift[] = [];
		for (const needed of shifts) {
			if (needed.shift.day < first || needed.shift.day > one.lastDay) continue;
			const { pieces, kind } = needed;
			const stretch = stretchAt(starts, pieces[0]?.day ?? 0);
			const table = tables[stretch] as Int8Array;
			const isOneStretch = pieces.length === 1 || pieces.every(({ day }) => stretchAt(starts, day) === stretch);
			let judged = isOneStretch ? (table[kind] as number) : -1;
			if (judged === -1) {
				judged = this.#judge({ starts, reaches }, areas, pieces);
				if (isOneStretch) table[kind] = judged;
			}
			if (judged === uncoveredOrdinarily) uncovered.push(needed.uncovered);
			else if (judged === uncoveredOnHoliday) uncovered.push(needed.uncoveredOnHoliday);
		}
		return uncovered;
	}

	#judge({ starts, reaches }: ClassReach, areas: readonly number[], pieces: readonly Piece[]): Judgment {
		const { words, types } = this.#model.reachFinder.grid;
		let judged: Judgment = covered;
		for (const { day, first, end, type } of pieces) {
			const reach = reaches[stretchAt(starts, day)] as DayReach;
			if (areas.every((area) => isReached(reach, words, area, first, end))) continue;
			if (types[type]?.isHoliday) return uncoveredOnHoliday;
			judged = uncoveredOrdinarily;
		}
		return judged;
	}
}

const noAbsences: readonly Absence[] = [];

/** A stretch of the time line cut into cells, each part by the intervals of its type of day. */
function piecesOf({ cells, reachFinder: { grid } }: AccessModel, from: number, to: number): Piece[] {
	const pieces: Piece[] = [];
	const last = cells.cellAt(to - 1);
	for (let place = cells.cellAt(from); place <= last; place++) {
		const cell = cells.cells[place];
		if (!cell) continue;
		const type = grid.typeOfCell[place] as number;
		const part = grid.intervalsOf(type, Math.max(from, cell.from) - cell.from, Math.min(to, cell.to) - cell.from);
		pieces.push({ day: cell.day, type, ...part });
	}
	return pieces;
}

function gapsOf(
	model: AccessModel,
	{ starts, reaches }: ClassReach,
	areas: readonly number[],
	shift: WorkedShift
): Gaps {
	const from = shift.from - model.rollout.site.arriveEarlyMinutes * 60;
	const { grid } = model.reachFinder;
	const spans: Span[] = [];
	const missed = new Set<number>();
	const last = model.cells.cellAt(shift.to - 1);
	for (let place = model.cells.cellAt(from); place <= last; place++) {
		const cell = model.cells.cells[place];
		const type = grid.types[grid.typeOfCell[place] as number];
		if (!cell || !type) continue;
		const reach = reaches[stretchAt(starts, cell.day)] as DayReach;
		type.bounds.forEach((bound, at) => {
			const start = Math.max(from, cell.from + bound);
			const end = Math.min(shift.to, cell.from + (type.bounds[at + 1] ?? type.length));
			const bit = type.firstWord * 32 + at;
			const out = start < end ? areas.filter((area) => !isReached(reach, grid.words, area, bit, bit + 1)) : [];
			if (out.length === 0) return;
			spans.push({ from: start, to: end });
			for (const area of out) missed.add(area);
		});
	}
	return { spans: spanSetOf(spans), areas: [...missed] };
}
