import { type StatutoryHoliday } from '$lib/core/calendar/statutory-holidays';
import { type LocalDate, epochDayOf, plusMonths, weekdayOf } from '$lib/core/calendar/local-date';
import { dayNames } from '$lib/charts/week';
import type { Rollout, RolloutDocument, Treatment } from '$lib/core/document/schema';
import { kindsOfRollout, treatmentOf } from './schedules';

/** An entry of the list of holidays, with its place in the list of the document. */
export interface HolidayRow {
	readonly place: number;
	readonly date: LocalDate;
	readonly weekday: string;
	readonly name: string | null;
	readonly kind: string;
	/** Of a date listed twice: the first entry counts. */
	readonly standing: 'once' | 'counts' | 'ignored';
	readonly isInHorizon: boolean;
}

/** The list of holidays by date; entries of one date in the order of the document. */
export function holidayRows({ holidays, horizon }: Rollout): HolidayRow[] {
	const placesByDate = new Map<string, number[]>();
	holidays.days.forEach(({ date }, place) => placesByDate.set(date, [...(placesByDate.get(date) ?? []), place]));
	return holidays.days
		.map(({ date, name, kind }, place): HolidayRow => {
			const places = placesByDate.get(date) ?? [];
			return {
				place,
				date,
				weekday: dayNames[weekdayOf(epochDayOf(date))],
				name,
				kind,
				standing: places.length === 1 ? 'once' : places[0] === place ? 'counts' : 'ignored',
				isInHorizon: date >= horizon.from && date <= horizon.until
			};
		})
		.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : a.place - b.place));
}

/** What one schedule does on every kind. */
export interface TreatmentRow {
	readonly id: string;
	readonly name: string;
	/** In the order of the kinds; null where nothing is said. */
	readonly treatments: readonly (Treatment | null)[];
	/** The same by kind, without what is undecided. */
	readonly byKind: Readonly<Record<string, Treatment>>;
	/** The schedule as it is written, as JSON: a form sends it back, so that what changed meanwhile is not overwritten. */
	readonly was: string;
}

/** Schedules by kinds of holiday. */
export function treatmentMatrix(
	rollout: Rollout,
	document: Pick<RolloutDocument, 'schedules'>
): { kinds: string[]; rows: TreatmentRow[] } {
	const kinds = kindsOfRollout(rollout);
	const rows = rollout.schedules.map((schedule, place) => {
		const treatments = kinds.map((kind) => treatmentOf(schedule, kind));
		const decided = kinds.flatMap((kind, place) => {
			const treatment = treatments[place];
			return treatment === null || treatment === undefined ? [] : [[kind, treatment] as const];
		});
		return {
			id: schedule.id,
			name: schedule.name ?? schedule.id,
			treatments,
			byKind: Object.fromEntries(decided),
			was: JSON.stringify(document.schedules?.[place])
		};
	});
	return { kinds, rows };
}

/** An official public holiday beside what the list has on its date. */
export interface StatutoryRow {
	readonly date: LocalDate;
	readonly weekday: string;
	readonly name: string;
	readonly isSubstitute: boolean;
	/** What the list has on that date; null where nothing: it can be added. */
	readonly listedAs: string | null;
}

/** Which of the official days the list has. A listed date counts whatever its kind, as the check has it. */
export function statutoryRows(days: readonly StatutoryHoliday[], { holidays }: Rollout): StatutoryRow[] {
	const listed = new Map(holidays.days.toReversed().map(({ date, name, kind }) => [date as string, name ?? kind]));
	return days.map(({ date, name, isSubstitute }) => ({
		date,
		weekday: dayNames[weekdayOf(epochDayOf(date))],
		name,
		isSubstitute,
		listedAs: listed.get(date) ?? null
	}));
}

/** The dates that are filled in: those asked for where they are in order and at most ten years apart, else the horizon. */
export function fillRange(
	{ horizon }: Rollout,
	from: string | null,
	until: string | null,
	isDate: (text: string) => text is LocalDate
): { from: LocalDate; until: LocalDate } {
	const first = from !== null && isDate(from) ? from : horizon.from;
	const last = until !== null && isDate(until) ? until : horizon.until;
	return last < first || last > plusMonths(first, 120)
		? { from: horizon.from, until: horizon.until }
		: { from: first, until: last };
}
