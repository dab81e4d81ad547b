import { type LocalDate, epochDayOf } from '../calendar/local-date';
import type { Hold, Template } from '../document/schema';

/** Where a template stands on a day; the first that holds in this order: erased, held, overdue, due, kept. */
export type TemplateState = 'kept' | 'due' | 'overdue' | 'held' | 'erased';

/** A template is due from this many days before the date to erase by, to that date itself. */
export const daysDue = 30;

/**
 * The places that still hold a template on a day, each once, as listed. A place is emptied by an erasure of it dated on
 * or before the day; one dated before the enrollment empties nothing.
 */
export function placesLeft(template: Template, on: LocalDate): string[] {
	const emptied = new Set(
		template.erasures.filter((one) => one.on >= template.enrolledOn && one.on <= on).map((one) => one.from)
	);
	return [...new Set(template.storedOn)].filter((place) => !emptied.has(place));
}

/** True while a hold covers a day, both ends included; a missing end is no limit. */
export function covers(hold: Pick<Hold, 'from' | 'until'>, on: LocalDate): boolean {
	return (hold.from === null || hold.from <= on) && (hold.until === null || on <= hold.until);
}

/** The state of a template on a day, from the places left, whether a hold covers the day, and the date to erase by. */
export function templateState(
	left: readonly string[],
	isHeld: boolean,
	eraseBy: LocalDate | null,
	on: LocalDate
): TemplateState {
	if (left.length === 0) return 'erased';
	if (isHeld) return 'held';
	if (eraseBy === null) return 'kept';
	const days = epochDayOf(eraseBy) - epochDayOf(on);
	return days < 0 ? 'overdue' : days <= daysDue ? 'due' : 'kept';
}
