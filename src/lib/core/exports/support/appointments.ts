import { wallTimeOf } from '../../calendar/local-date-time';
import type { LocalDateTime } from '../../calendar/local-date-time';
import type { Zone } from '../../calendar/zone';
import { sha256 } from '../../document/sha-256';
import type { Rollout } from '../../document/schema';
import { fieldOf } from '../../document/walk';
import { byCodeUnits } from '../../kernel/compare';
import { groupBy } from '../../kernel/group-by';

/**
 * Appointments as calendars know them. A visit of a person is one appointment, however often its booking is moved; after a visit
 * that took place the next booking is another one. What the record of changes knows of bookings is gone through from the first
 * change on, undoings as changes of their own, so that each state that a calendar may have been made from has a number of its own.
 * Cost: linear in what was recorded.
 */

/** Where and when an appointment is. */
export interface Place {
	readonly station: string;
	readonly start: LocalDateTime;
	readonly minutes: number;
	readonly lane: number;
}

/** An entry of a list at some change, by the number of its piece; null where it is gone. */
export interface RecordedEntry {
	readonly list: 'bookings' | 'visits';
	readonly piece: number;
	readonly value: unknown;
}

/** What an installation remembers of bookings, for calendars that replace earlier ones. */
export interface AppointmentRecord {
	/** Names the rollout for good and on no other machine alike. */
	readonly key: string;
	/** The entries of both lists before the second change. */
	readonly first: readonly RecordedEntry[];
	/** What later changes left of the entries they touched, in their order. `at`: an instant, ISO 8601 in UTC. */
	readonly changes: readonly {
		readonly number: number;
		readonly at: string;
		readonly entries: readonly RecordedEntry[];
	}[];
	/** The latest changes at the moments when calendars were taken out. */
	readonly takenAt: Readonly<Record<'people' | 'stations', readonly number[]>>;
}

export interface Appointment {
	readonly person: string;
	/** From 1; and from 0 which of several bookings of one person, of which only one can be right. */
	readonly visit: number;
	readonly slot: number;
	/** Where it is, or was last. */
	readonly place: Place;
	/** How often it was changed since it was first there. */
	readonly sequence: number;
	/** When it was changed last, an instant in ISO 8601; null where no change is known. */
	readonly changedAt: string | null;
	readonly isFreed: boolean;
	/** Between which changes it was at which station: `from` included, `to` not, null as long as it stands. */
	readonly stood: readonly { readonly place: Place; readonly from: number; readonly to: number | null }[];
}

interface Open extends Omit<Appointment, 'stood'> {
	readonly stood: { place: Place; readonly from: number; to: number | null }[];
}

/** Every appointment that there is or was; without a record those of the document, at their first state. */
export function appointmentsOf(rollout: Rollout, record: AppointmentRecord | undefined): readonly Appointment[] {
	const told = new Appointments();
	const { bookings, visits } = rollout.enrollment;
	const now = (list: RecordedEntry['list'], values: readonly unknown[]) =>
		values.map((value, piece): RecordedEntry => ({ list, piece, value }));
	told.take(record?.first ?? [...now('bookings', bookings), ...now('visits', visits)], 1, null);
	for (const { number, at, entries } of record?.changes ?? []) told.take(entries, number, at);
	return [...told.all];
}

class Appointments {
	readonly #bookings = new Map<number, { person: string; place: Place }>();
	readonly #piecesByPerson = new Map<string, Set<number>>();
	readonly #visits = new Map<number, { person: string; on: string }>();
	readonly #visitsByPerson = new Map<string, Set<number>>();
	readonly #openByPerson = new Map<string, Open[]>();
	readonly #known = new Map<string, Open>();

	get all(): Iterable<Appointment> {
		return this.#known.values();
	}

	take(entries: readonly RecordedEntry[], number: number, at: string | null): void {
		const touched = new Set<string>();
		// A visit that is entered together with the next booking is over by then.
		for (const { list, piece, value } of entries) {
			if (list === 'visits') this.#put(this.#visits, this.#visitsByPerson, piece, visitIn(value));
		}
		for (const { list, piece, value } of entries) {
			if (list !== 'bookings') continue;
			const after = bookingIn(value);
			for (const one of [this.#bookings.get(piece), after]) if (one) touched.add(one.person);
			this.#put(this.#bookings, this.#piecesByPerson, piece, after);
		}
		for (const person of touched) this.#settle(person, number, at);
	}

	#put<T extends { person: string }>(
		entries: Map<number, T>,
		byPerson: Map<string, Set<number>>,
		piece: number,
		value: T | null
	): void {
		const before = entries.get(piece);
		if (before) byPerson.get(before.person)?.delete(piece);
		if (!value) {
			entries.delete(piece);
			return;
		}
		entries.set(piece, value);
		byPerson.set(value.person, (byPerson.get(value.person) ?? new Set()).add(piece));
	}

	#settle(person: string, number: number, at: string | null): void {
		const places = [...(this.#piecesByPerson.get(person) ?? [])]
			.flatMap((piece) => this.#bookings.get(piece)?.place ?? [])
			.sort((a, b) => byCodeUnits(a.start, b.start));
		const before = this.#openByPerson.get(person) ?? [];
		const visits = [...(this.#visitsByPerson.get(person) ?? [])].flatMap((piece) => this.#visits.get(piece)?.on ?? []);
		const after = places.map((place, slot): Open => {
			const old = before[slot];
			const held = visits.filter((on) => on < place.start.slice(0, 10)).length;
			const visit = Math.max(held + 1, old?.visit ?? 1);
			if (old && old.visit !== visit) end(old, number);
			return this.#at(person, visit, slot, place, number, at);
		});
		for (const old of before.slice(places.length)) {
			end(old, number);
			Object.assign(old, { isFreed: true, sequence: old.sequence + 1, changedAt: at });
		}
		this.#openByPerson.set(person, after);
	}

	#at(person: string, visit: number, slot: number, place: Place, number: number, at: string | null): Open {
		const key = `${visit} ${slot} ${person}`;
		const known = this.#known.get(key);
		if (!known) {
			const stood: Open['stood'] = [{ place, from: number, to: null }];
			const made: Open = { person, visit, slot, place, sequence: 0, changedAt: at, isFreed: false, stood };
			this.#known.set(key, made);
			return made;
		}
		if (!known.isFreed && isSame(known.place, place)) return known;
		const last = known.stood.at(-1);
		if (last?.to === null && last.place.station === place.station) last.place = place;
		else {
			end(known, number);
			known.stood.push({ place, from: number, to: null });
		}
		return Object.assign(known, { place, isFreed: false, sequence: known.sequence + 1, changedAt: at });
	}
}

function end(appointment: Open, number: number): void {
	const last = appointment.stood.at(-1);
	if (last) last.to ??= number;
}

function isSame(a: Place, b: Place): boolean {
	return a.station === b.station && a.start === b.start && a.minutes === b.minutes && a.lane === b.lane;
}

/** A booking as it was written at some time; null where it is gone, or was taken out of the record. */
function bookingIn(value: unknown): { person: string; place: Place } | null {
	const [person, station, start] = ['person', 'station', 'start'].map((key) => fieldOf(value, key));
	const minutes = fieldOf(value, 'minutes');
	if (typeof person !== 'string' || typeof station !== 'string' || typeof start !== 'string') return null;
	const lane = fieldOf(value, 'lane');
	const place = { station, start: start as LocalDateTime, minutes: Number(minutes), lane: Number(lane ?? 1) };
	return { person, place };
}

function visitIn(value: unknown): { person: string; on: string } | null {
	const [person, on] = [fieldOf(value, 'person'), fieldOf(value, 'on')];
	return typeof person === 'string' && typeof on === 'string' ? { person, on } : null;
}

/** Of freed or moved appointments those that a calendar taken out of the app can still show, where they then were. */
export function withdrawnFor(
	appointments: readonly Appointment[],
	record: AppointmentRecord,
	zone: Zone,
	station: string | null
): { readonly appointment: Appointment; readonly place: Place }[] {
	const taken = record.takenAt[station === null ? 'people' : 'stations'];
	return appointments.flatMap((appointment) => {
		const { place, isFreed, stood, changedAt } = appointment;
		const stands = stood.some(({ to, place: { station: at } }) => to === null && (station === null || at === station));
		// Of a visit that took place, and was followed by another, nothing is withdrawn.
		if (stands || (!isFreed && !stood.some(({ to }) => to === null))) return [];
		const shown = stood.filter(
			(one) =>
				(station === null || one.place.station === station) &&
				taken.some((number) => one.from <= number && number < (one.to ?? Infinity))
		);
		const last = shown.at(-1);
		if (!last) return [];
		const overAt = zone.instantOf(wallTimeOf(last.place.start)) + last.place.minutes * 60;
		if (changedAt !== null && Date.parse(changedAt) / 1000 >= overAt) return [];
		return [{ appointment, place: station === null ? place : last.place }];
	});
}

/** Appointments by their person. */
export function byPerson(appointments: readonly Appointment[]): ReadonlyMap<string, readonly Appointment[]> {
	return groupBy(appointments, ({ person }) => person);
}

/**
 * A UID that tells nothing of whom it is about: a name-based UUID from a SHA-256 hash. At a station an appointment has another
 * one, since it is withdrawn there when the person is moved to another station.
 * @source RFC 9562, section 5.8 (UUID version 8); RFC 7986, section 5.3 (no personal data in a UID): from memory
 */
export function appointmentUid(key: string, { person, visit, slot }: Appointment, station: string | null): string {
	return uuidOf([key, person, visit, slot, station]);
}

/** A UUID from a hash of what it is to stand for. */
export function uuidOf(parts: readonly unknown[]): string {
	const hex = sha256(new TextEncoder().encode(JSON.stringify(parts)));
	const variant = '89ab'[parseInt(hex[16] ?? '0', 16) % 4] ?? '8';
	return [
		hex.slice(0, 8),
		hex.slice(8, 12),
		`8${hex.slice(13, 16)}`,
		`${variant}${hex.slice(17, 20)}`,
		hex.slice(20, 32)
	].join('-');
}
