import { type EpochDay, epochDayOf } from '../calendar/local-date';
import { type Span, type SpanSet, spanSetOf } from '../calendar/spans';
import type { Absence, Person } from '../document/schema';
import type { AccessClass, AccessModel } from './model';
import type { Course } from './timeline';
import { type WorkedShift, isAbsentOn, isEmployedOn, shiftsOfPattern } from './shifts';

/**
 * Whether people can work their shifts: a shift is covered when from early arrival to its end each of the person's work areas
 * can be reached. Shifts of a pattern and what of them is uncovered for one class, one pattern and the same work areas are
 * computed once and shared by everyone alike.
 */

/** A shift that is not covered, and the instants at which a work area is out of reach. */
export interface UncoveredShift {
	readonly shift: WorkedShift;
	readonly gaps: SpanSet;
	/** Places of the work areas that are out of reach in the gaps. */
	readonly areas: readonly number[];
	/** True when an uncovered minute lies on a listed holiday. */
	readonly isOnHoliday: boolean;
}

/** Finds uncovered shifts person by person; keep one finder for many people. */
export class CoverageFinder {
	readonly #model: AccessModel;
	readonly #shiftsByPattern = new Map<string, readonly WorkedShift[]>();
	readonly #uncoveredByKey = new Map<string, readonly UncoveredShift[]>();
	readonly #goLiveByWave: ReadonlyMap<string, EpochDay>;
	readonly #absencesByPerson = new Map<string, Absence[]>();

	constructor(model: AccessModel) {
		this.#model = model;
		this.#goLiveByWave = new Map(
			model.rollout.enrollment.waves.flatMap((wave) =>
				wave.goLive === null ? [] : [[wave.id, epochDayOf(wave.goLive)]]
			)
		);
		for (const absence of model.rollout.absences) {
			const list = this.#absencesByPerson.get(absence.person) ?? [];
			list.push(absence);
			this.#absencesByPerson.set(absence.person, list);
		}
	}

	/** The shifts of a person that are checked and not covered, in the order of time. */
	uncoveredOf(person: Person): readonly UncoveredShift[] {
		if (person.shiftPattern === null || person.workAreas.length === 0) return [];
		const first = this.#firstDayOf(person);
		const absences = this.#absencesByPerson.get(person.id) ?? [];
		return this.#uncoveredOfClass(person).filter(
			({ shift }) => shift.day >= first && isEmployedOn(person, shift.day) && !isAbsentOn(absences, shift.day)
		);
	}

	/** The shifts of a person that are checked: from the go-live of their wave on, employed and not absent. */
	shiftsOf(person: Person): readonly WorkedShift[] {
		if (person.shiftPattern === null) return [];
		const first = this.#firstDayOf(person);
		const absences = this.#absencesByPerson.get(person.id) ?? [];
		return this.#shiftsOfPattern(person.shiftPattern).filter(
			({ day }) => day >= first && isEmployedOn(person, day) && !isAbsentOn(absences, day)
		);
	}

	#firstDayOf(person: Person): number {
		return (person.wave === null ? undefined : this.#goLiveByWave.get(person.wave)) ?? this.#model.from;
	}

	#shiftsOfPattern(id: string): readonly WorkedShift[] {
		let shifts = this.#shiftsByPattern.get(id);
		if (!shifts) {
			const { from, until, holidays, zone } = this.#model;
			const pattern = this.#model.patterns.get(id);
			shifts = pattern ? shiftsOfPattern(pattern, from, until, holidays, zone) : [];
			this.#shiftsByPattern.set(id, shifts);
		}
		return shifts;
	}

	#uncoveredOfClass(person: Person): readonly UncoveredShift[] {
		const one = this.#model.findClass(person.id);
		if (!one || person.shiftPattern === null) return [];
		const places = [...new Set(person.workAreas.map((id) => this.#model.building.areaPlaceById.get(id) as number))];
		places.sort((a, b) => a - b);
		const key = JSON.stringify([one.key, person.shiftPattern, places]);
		let uncovered = this.#uncoveredByKey.get(key);
		if (!uncovered) {
			uncovered = this.#findUncovered(this.#shiftsOfPattern(person.shiftPattern), places, one);
			this.#uncoveredByKey.set(key, uncovered);
		}
		return uncovered;
	}

	#findUncovered(shifts: readonly WorkedShift[], areas: readonly number[], one: AccessClass): UncoveredShift[] {
		const early = this.#model.rollout.site.arriveEarlyMinutes * 60;
		return shifts.flatMap((shift) => {
			const needed = { from: shift.from - early, to: shift.to };
			if (canReachAll(this.#model, one, areas, needed)) return [];
			const gaps = gapsOf(this.#model, one, areas, needed);
			return [{ shift, gaps: spanSetOf(gaps.spans), areas: [...gaps.areas], isOnHoliday: gaps.isOnHoliday }];
		});
	}
}

/** True when a class can reach every one of some areas all through a span: asked for each shift, so it makes nothing. */
function canReachAll(model: AccessModel, one: AccessClass, areas: readonly number[], needed: Span): boolean {
	const { cells } = model.cells;
	const courses = model.coursesOf(one);
	for (let place = model.cells.cellAt(needed.from); place < cells.length; place++) {
		const cell = cells[place];
		if (!cell || cell.from >= needed.to) break;
		const { bounds, states } = courses[place] as Course;
		for (let at = 0; at < states.length; at++) {
			if (cell.from + (bounds[at + 1] as number) <= needed.from) continue;
			if (cell.from + (bounds[at] as number) >= needed.to) break;
			const reach = states[at]?.reach;
			for (const area of areas) if (reach?.[area] !== 1) return false;
		}
	}
	return true;
}

/** The parts of a span in which a class cannot reach one of some areas; which areas; and whether one lies on a holiday. */
function gapsOf(
	model: AccessModel,
	one: AccessClass,
	areas: readonly number[],
	needed: Span
): { readonly spans: Span[]; readonly areas: Set<number>; readonly isOnHoliday: boolean } {
	const { cells } = model.cells;
	const courses = model.coursesOf(one);
	const spans: Span[] = [];
	const missed = new Set<number>();
	let isOnHoliday = false;
	for (let place = model.cells.cellAt(needed.from); place < cells.length; place++) {
		const cell = cells[place];
		if (!cell || cell.from >= needed.to) break;
		const { bounds, states } = courses[place] as Course;
		states.forEach(({ reach }, at) => {
			const from = Math.max(needed.from, cell.from + (bounds[at] as number));
			const to = Math.min(needed.to, cell.from + (bounds[at + 1] as number));
			if (from >= to) return;
			const out = areas.filter((area) => reach[area] !== 1);
			if (out.length === 0) return;
			spans.push({ from, to });
			for (const area of out) missed.add(area);
			if (model.holidays.has(cell.day)) isOnHoliday = true;
		});
	}
	return { spans, areas: missed, isOnHoliday };
}
