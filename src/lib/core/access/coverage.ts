import { epochDayOf } from '../calendar/local-date';
import { type Span, type SpanSet, spanSetOf } from '../calendar/spans';
import type { Person } from '../document/schema';
import { remembered } from '../kernel/remembered';
import type { AccessClass, AccessModel } from './model';
import { type WorkedShift, shiftsOfPattern } from './shifts';
import type { Course } from './timeline';

/**
 * Whether people can work their shifts: a shift is covered when from early arrival to its end each of the person's work areas
 * can be reached.
 *
 * The idea: what of a pattern is uncovered for one class and the same work areas is found once and shared by everyone alike;
 * only dates that are a person's own (employment, absences, go-live of the wave) are looked at one by one. Cost: shifts of a
 * pattern x distinct (class, pattern, areas), each a look at one or two courses. Our own.
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

/** A shift with what must be covered of it and the cells in which that lies. */
interface NeededShift extends Span {
	readonly shift: WorkedShift;
	readonly firstCell: number;
	readonly lastCell: number;
}

type Dates = Readonly<{ from: number; until: number }>;

/** Finds uncovered shifts person by person; keep one finder for many people. */
export class CoverageFinder {
	readonly #model: AccessModel;
	readonly #shiftsByPattern = new Map<string, readonly NeededShift[]>();
	readonly #uncoveredByKey = new Map<string, readonly UncoveredShift[]>();
	readonly #goLiveByWave: ReadonlyMap<string, number>;
	readonly #absencesByPerson = new Map<string, Dates[]>();

	constructor(model: AccessModel) {
		this.#model = model;
		const { absences, enrollment } = model.rollout;
		this.#goLiveByWave = new Map(
			enrollment.waves.flatMap(({ id, goLive }) => (goLive === null ? [] : [[id, epochDayOf(goLive)]]))
		);
		for (const { person, from, until } of absences) {
			remembered(this.#absencesByPerson, person, () => []).push({
				from: from === null ? -Infinity : epochDayOf(from),
				until: until === null ? Infinity : epochDayOf(until)
			});
		}
	}

	/** The shifts of a person that are checked and not covered, in the order of time. */
	uncoveredOf(person: Person): readonly UncoveredShift[] {
		const one = this.#model.findClass(person.id);
		if (!one || person.shiftPattern === null || person.workAreas.length === 0) return [];
		const uncovered = this.#uncoveredOfClass(one, person.shiftPattern, this.#placesOf(person));
		if (uncovered.length === 0) return uncovered;
		const goLive = person.wave === null ? undefined : this.#goLiveByWave.get(person.wave);
		const first = Math.max(one.firstDay, goLive ?? this.#model.from);
		const absences = this.#absencesByPerson.get(person.id) ?? [];
		return uncovered.filter(
			({ shift: { day } }) =>
				day >= first && day <= one.lastDay && !absences.some(({ from, until }) => from <= day && day <= until)
		);
	}

	/** When a shift of a person is not covered, and which work areas are out of reach. */
	gapsOf(person: Person, shift: WorkedShift): Gaps {
		const one = this.#model.findClass(person.id);
		return one ? gapsOf(this.#model, one, this.#placesOf(person), this.#neededFor(shift)) : { spans: [], areas: [] };
	}

	#placesOf(person: Person): number[] {
		const places = person.workAreas.map((id) => this.#model.building.areaPlaceById.get(id) as number);
		return [...new Set(places)].sort((a, b) => a - b);
	}

	#neededFor(shift: WorkedShift): NeededShift {
		const from = shift.from - this.#model.rollout.site.arriveEarlyMinutes * 60;
		const { cells } = this.#model;
		return { shift, from, to: shift.to, firstCell: cells.cellAt(from), lastCell: cells.cellAt(shift.to - 1) };
	}

	#uncoveredOfClass(one: AccessClass, patternId: string, areas: readonly number[]): readonly UncoveredShift[] {
		return remembered(this.#uncoveredByKey, `${patternId}\n${areas.join()}\n${one.key}`, () => {
			const { from, until, holidays, zone, patterns } = this.#model;
			const shifts = remembered(this.#shiftsByPattern, patternId, () => {
				const pattern = patterns.get(patternId);
				if (!pattern) return [];
				return shiftsOfPattern(pattern, from, until, holidays, zone).map((shift) => this.#neededFor(shift));
			});
			const courses = this.#model.coursesOf(one);
			const uncovered: UncoveredShift[] = [];
			for (const needed of shifts) {
				const judged = judge(this.#model, courses, areas, needed);
				if (judged !== 'covered')
					uncovered.push({ shift: needed.shift, isOnHoliday: judged === 'uncovered on a holiday' });
			}
			return uncovered;
		});
	}
}

/** Judges one shift of one class; asked for each shift of everybody, so it makes nothing on the way. */
function judge(
	{ cells: { cells }, holidays }: AccessModel,
	courses: readonly Course[],
	areas: readonly number[],
	{ from, to, firstCell, lastCell }: NeededShift
): 'covered' | 'uncovered' | 'uncovered on a holiday' {
	let isCovered = true;
	for (let place = firstCell; place <= lastCell; place++) {
		const cell = cells[place];
		const course = courses[place];
		if (!cell || !course) continue;
		const { bounds, states } = course;
		for (let at = 0; at < states.length; at++) {
			if (cell.from + (bounds[at + 1] as number) <= from) continue;
			if (cell.from + (bounds[at] as number) >= to) break;
			const reach = states[at]?.reach;
			for (const area of areas) {
				if (reach?.[area] === 1) continue;
				isCovered = false;
				if (holidays.has(cell.day)) return 'uncovered on a holiday';
			}
		}
	}
	return isCovered ? 'covered' : 'uncovered';
}

function gapsOf(model: AccessModel, one: AccessClass, areas: readonly number[], needed: NeededShift): Gaps {
	const courses = model.coursesOf(one);
	const spans: Span[] = [];
	const missed = new Set<number>();
	for (let place = needed.firstCell; place <= needed.lastCell; place++) {
		const start = model.cells.cells[place]?.from ?? 0;
		const { bounds, states } = courses[place] as Course;
		states.forEach(({ reach }, at) => {
			const from = Math.max(needed.from, start + (bounds[at] as number));
			const to = Math.min(needed.to, start + (bounds[at + 1] as number));
			const out = from < to ? areas.filter((area) => reach[area] !== 1) : [];
			if (out.length === 0) return;
			spans.push({ from, to });
			for (const area of out) missed.add(area);
		});
	}
	return { spans: spanSetOf(spans), areas: [...missed] };
}
