import type { LocalDate } from '../calendar/local-date';
import type { LocalDateTime } from '../calendar/local-date-time';

/**
 * Who was told of their appointment. A person is told where and when they come; which lane it is they hear at the desk, so a booking
 * that only changes its lane need not be told again.
 */

/** A booking as far as its person is told of it, as it is written: keys may be missing. */
export interface Tellable {
	readonly station: string;
	readonly start: LocalDateTime;
	readonly toldOn?: LocalDate | null | undefined;
	readonly toldOf?: Told | null | undefined;
}

/** An appointment that a person was told of. */
export interface Told {
	readonly station: string;
	readonly start: LocalDateTime;
	readonly on: LocalDate;
}

/** How a booking stands: its person knows it; knows of another one that it replaces; knows of none. */
export type Telling = 'told' | 'anew' | 'to-tell';

export function tellingOf(booking: Tellable): Telling {
	if (booking.toldOn) return 'told';
	return booking.toldOf ? 'anew' : 'to-tell';
}

/** True when somebody who was told of one appointment knows the other by it. */
export function isSameAppointment(a: Pick<Told, 'station' | 'start'>, b: Pick<Told, 'station' | 'start'>): boolean {
	return a.station === b.station && a.start === b.start;
}

/**
 * A booking that takes the place of another one of the same person, with what the person was told carried over: still told of the same
 * appointment, or told of the earlier one. Moved back to what the person knows, it is told again.
 */
export function withTelling<B extends Tellable>(before: Tellable | undefined, after: B): B {
	const { toldOn: _, toldOf: __, ...place } = after;
	const known = before && knownOf(before);
	if (!known) return place as unknown as B;
	const told = isSameAppointment(known, after) ? { toldOn: known.on } : { toldOf: known };
	return { ...place, ...told } as unknown as B;
}

function knownOf({ station, start, toldOn, toldOf }: Tellable): Told | undefined {
	return toldOn ? { station, start, on: toldOn } : (toldOf ?? undefined);
}
