import { type EpochDay, type LocalDate, epochDayOf } from '../../calendar/local-date';
import { instantsOfStretch } from '../../access/schedule-days';
import { stretch } from '../../calendar/stretch';
import type { Person } from '../../document/schema';
import type { EnrollmentModel, ReadyStation } from '../model';

/** Who is likely to come to a desk, hour by hour. */
export interface LikelyArrivals {
	/** People an hour, from the opening on, to a tenth. */
	readonly arrivals: readonly number[];
	/** People still to be enrolled whom the desk serves and who could come on that date. */
	readonly people: number;
	/** Others still to be enrolled: never free while it is open then, not served there, or due before. */
	readonly others: number;
}

/**
 * Arrivals at a station on a date, as if everybody still to be enrolled came once, at any moment in which they could: in their working
 * time, with their walk, while it is open, by their due date. `spread` over all its stretches from that date on, or all on that date.
 * That any moment is as likely as another is our own assumption; a crowd at the start of a shift has to be written by hand.
 */
export function likelyArrivals(
	model: EnrollmentModel,
	ready: ReadyStation,
	asked: { readonly date: LocalDate; readonly open: string; readonly spread: boolean }
): LikelyArrivals {
	const day = epochDayOf(asked.date);
	const { from, to } = instantsOfStretch(stretch(asked.open), day, model.zone);
	const later = asked.spread
		? ready.stretches.filter((one) => one.date >= asked.date && (one.from >= to || one.to <= from))
		: [];
	const last = later.reduce<number>((latest, one) => Math.max(latest, epochDayOf(one.date)), day) as EpochDay;
	const hours = Array.from({ length: Math.max(0, Math.ceil((to - from) / 3600)) }, (_, hour) => ({
		from: from + 3600 * hour,
		to: Math.min(to, from + 3600 * (hour + 1))
	}));
	const sums = hours.map(() => 0);
	let [people, others] = [0, 0];
	const shares = new Map<string, readonly number[]>();
	for (const person of model.rollout.people) {
		if (model.standings.get(person.id) !== 'to-book') continue;
		const key = keyOf(model, person, ready);
		let share = shares.get(key);
		if (!share) shares.set(key, (share = shareOf(person)));
		if (share.some((one) => one > 0)) people++;
		else others++;
		share.forEach((one, hour) => (sums[hour] = (sums[hour] as number) + one));
	}
	const arrivals = sums.map((sum, hour) => {
		const { from: begin, to: end } = hours[hour] as { from: number; to: number };
		return Math.round((10 * sum * 3600) / (end - begin)) / 10;
	});
	return { arrivals, people, others };

	/** The chance that somebody comes in each hour. */
	function shareOf(person: Person): number[] {
		const nothing = hours.map(() => 0);
		if (!person.needs.every((need) => ready.serves.has(need))) return nothing;
		const walk = model.walkOf(person, ready.station.area);
		const taken = walk + (model.minutesOf(person) ?? 0) * 60;
		const enrollBy = model.enrollByOf(person);
		const until = enrollBy === null ? Infinity : model.endOf(enrollBy);
		// Somebody can come at any moment from which walking back, too, lies in the span.
		const free = model
			.freeSpansOf(person, day, last)
			.map((span) => ({ from: span.from + walk, to: Math.min(span.to - taken, until - taken + walk) }));
		const common = (one: { from: number; to: number }): number =>
			free.reduce((sum, span) => sum + Math.max(0, Math.min(span.to, one.to) - Math.max(span.from, one.from)), 0);
		const inHours = hours.map(common);
		const whole = inHours.reduce((sum, one) => sum + one, 0) + later.reduce((sum, one) => sum + common(one), 0);
		return whole === 0 ? nothing : inHours.map((one) => one / whole);
	}
}

/** People with the same key are free at the same times and walk as far. */
function keyOf(model: EnrollmentModel, person: Person, { serves, station }: ReadyStation): string {
	const { from, until, absences } = model.employedDaysOf(person);
	return JSON.stringify([
		person.shiftPattern,
		String(from),
		String(until),
		absences.map((absence) => [String(absence.from), String(absence.until)]),
		person.needs.every((need) => serves.has(need)),
		model.walkOf(person, station.area),
		model.minutesOf(person),
		model.enrollByOf(person)
	]);
}
