import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { type Span, type SpanSet, clip, difference } from '../calendar/spans';
import type { Person, Rollout } from '../document/schema';
import { AccessModel } from './model';
import { type WorkedShift, isAbsentOn, isEmployedOn, shiftsOfPattern } from './shifts';

/** A shift of a person as far as it lies on one date, and what of it is not covered. */
export interface ShiftOnDay {
	readonly shift: WorkedShift;
	/** From early arrival to its end, as far as it lies on the date. */
	readonly needed: Span;
	/** Whether the check of shifts covers it: it starts in the horizon and from the go-live of the person's wave on. */
	readonly isChecked: boolean;
	/** The person's work areas by id, each with the instants of `needed` at which it cannot be reached. */
	readonly missing: readonly { readonly area: string; readonly spans: SpanSet }[];
}

/** What a person can reach on one local date, exact at every instant of it. */
export interface PersonDay {
	/**
	 * From the midnight of the date to the next one: 23 or 25 hours where a clock changes, nothing where the zone leaves the
	 * date out, and with the repeated end of the date before where a clock is turned back past midnight.
	 */
	readonly range: Span;
	/** When each area can be reached, in the order of the document; an area outside always. */
	readonly areas: readonly { readonly area: string; readonly spans: SpanSet }[];
	/** The instants in the range, its beginning left out, at which the areas within reach become others. */
	readonly changes: readonly number[];
	readonly shifts: readonly ShiftOnDay[];
	readonly model: AccessModel;
}

/** Works out what a person of the rollout can reach on a date, and whether that covers their shifts. */
export function personDayOf(rollout: Rollout, person: Person, date: LocalDate): PersonDay {
	const model = new AccessModel(rollout, { from: date, until: date }, [person]);
	const { range } = model;
	const one = model.findClass(person.id);
	const reach = one ? model.reachOf(one) : [];
	const areas = model.building.areaIds.map((area, place) => ({
		area,
		spans: clip(reach[place] ?? [], range.from, range.to)
	}));
	const changes = new Set(areas.flatMap(({ spans }) => spans.flatMap(({ from, to }) => [from, to])));
	return {
		range,
		areas,
		changes: [...changes].filter((at) => at > range.from && at < range.to).sort((a, b) => a - b),
		shifts: shiftsOnDay(model, person, areas),
		model
	};
}

function shiftsOnDay(model: AccessModel, person: Person, areas: PersonDay['areas']): ShiftOnDay[] {
	const { rollout, range, zone, holidays } = model;
	const pattern = person.shiftPattern === null ? undefined : model.patterns.get(person.shiftPattern);
	if (!pattern || range.from >= range.to) return [];
	const early = rollout.site.arriveEarlyMinutes * 60;
	const [first, last] = [plusDays(model.from, -2), plusDays(model.from, 1 + Math.ceil(early / 86400))];
	const absences = rollout.absences.filter((absence) => absence.person === person.id);
	const spansByArea = new Map(areas.map(({ area, spans }) => [area, spans]));
	return shiftsOfPattern(pattern, first, last, holidays, zone)
		.filter(({ day }) => isEmployedOn(person, day) && !isAbsentOn(absences, day))
		.flatMap((shift) => {
			const needed = { from: Math.max(shift.from - early, range.from), to: Math.min(shift.to, range.to) };
			if (needed.from >= needed.to) return [];
			const missing = [...new Set(person.workAreas)].map((area) => ({
				area,
				spans: difference([needed], spansByArea.get(area) ?? [])
			}));
			return [{ shift, needed, isChecked: isChecked(rollout, person, shift.day), missing }];
		});
}

function isChecked({ horizon, enrollment }: Rollout, person: Person, day: EpochDay): boolean {
	const goLive = enrollment.waves.find(({ id }) => id === person.wave)?.goLive ?? horizon.from;
	const date = dateOf(day);
	return date >= horizon.from && date <= horizon.until && day >= epochDayOf(goLive);
}
