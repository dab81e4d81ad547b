import type { LocalDate } from '../calendar/local-date';
import { wallTimeOf } from '../calendar/local-date-time';
import type { Span } from '../calendar/spans';
import type { Booking, Person } from '../document/schema';
import type { FixedBookings } from './fixed';
import { type Lattice, latticeOf, nextSlots } from './lattice';
import type { EnrollmentModel, ReadyStation } from './model';
import { type Meeting, type Window, hashOfWindow, isSameWindow, meetingsOf, windowOf } from './windows';

/**
 * The puzzle behind a rollout, in whole numbers. People of one *kind* may start at the same slots, take the same time, walk as
 * far, count against the same away-limit and are due on the same date: they are interchangeable, and everything is
 * reckoned by kind.
 *
 * Two readings. `strict` is what plans are made by; `lenient` is what proofs are made by. They differ only for documents with a
 * slip: a fixed booking that breaks a rule keeps its time and its person in the first and counts for nothing in the second, and
 * nobody is planned to walk for weeks. So neither a plan nor a proof hangs on what was meant.
 */
export type Reading = 'strict' | 'lenient';

export interface Kind {
	/** Window by station, null where there is none. */
	readonly windows: readonly (Window | null)[];
	/** One-way walk in seconds, by station. */
	readonly walks: readonly number[];
	readonly minutes: number;
	/** Place in `durations`. */
	readonly duration: number;
	/** Place in `limits`; -1 for none. */
	readonly limit: number;
	/** Rank of the due date: 0 for the earliest; people without a due date of a wave come last. */
	readonly rank: number;
	/** People of the kind, as places in `people`. */
	readonly members: readonly number[];
}

export interface Limit {
	readonly department: string;
	readonly maxAway: number;
}

/** A booking that stands before planning begins, by station and instants. */
export interface StandingBooking {
	readonly booking: Booking;
	readonly station: number;
	readonly lane: number;
	readonly from: number;
	readonly to: number;
	/** One-way walk in seconds. */
	readonly walk: number;
	/** Place in `limits`; -1 for none. */
	readonly limit: number;
}

export interface Instance {
	readonly model: EnrollmentModel;
	readonly lattices: readonly Lattice[];
	/** Numbers of the lanes of each station, as in bookings; never more than could be used. */
	readonly lanes: readonly (readonly number[])[];
	/** Different station times in minutes, ascending. */
	readonly durations: readonly number[];
	/** `next` by station and duration. */
	readonly next: readonly (readonly Int32Array[])[];
	readonly limits: readonly Limit[];
	readonly kinds: readonly Kind[];
	/** People to book: to be enrolled, and without a booking that stands. */
	readonly people: readonly Person[];
	readonly kindOf: Int32Array;
	readonly standing: readonly StandingBooking[];
	/** Number of due-date ranks. */
	readonly ranks: number;
	/** People to book who are not in `people`, since time was over before. */
	readonly unread: number;
}

/** Nobody is planned to walk longer than that, in seconds; only a slip in a document asks for it. */
const longestWalk = 30 * 86400;

/** True when the two readings of the document differ for somebody. */
export function isAmbiguous(model: EnrollmentModel, fixed: FixedBookings): boolean {
	if (fixed.broken.length > 0) return true;
	return model.rollout.enrollment.walks.some((walk) => walk.minutes * 60 > longestWalk);
}

/** Makes the puzzle of a rollout; of as many people as there is time for. */
export function instanceOf(
	model: EnrollmentModel,
	fixed: FixedBookings,
	reading: Reading,
	isOver: () => boolean = () => false
): Instance {
	const lattices = model.stations.map((ready) => latticeOf(model, ready));
	const booked = new Set([...fixed.valid, ...(reading === 'strict' ? fixed.broken : [])].map(({ person }) => person));
	const all = model.rollout.people.filter(
		(person) => model.standings.get(person.id) === 'to-book' && !booked.has(person.id)
	);
	const durations = [...new Set(all.map((person) => model.minutesOf(person) ?? -1))].sort((a, b) => a - b);
	const limits = limitsOf(model);
	const { kinds, read } = kindsOf({ model, lattices, people: all, durations, limits, reading }, isOver);
	const people = read < all.length ? all.slice(0, read) : all;
	const kindOf = new Int32Array(people.length);
	kinds.forEach((kind, index) => kind.members.forEach((member) => (kindOf[member] = index)));
	const standing = standingBookings(model, fixed, limits, reading);
	return {
		model,
		lattices,
		lanes: lattices.map((_, station) => lanesOf(model, station, people.length, standing)),
		durations,
		next: lattices.map((lattice) => durations.map((minutes) => nextSlots(lattice, Math.max(minutes, 0) * 60))),
		limits,
		kinds,
		people,
		kindOf,
		standing,
		ranks: 1 + kinds.reduce((most, kind) => Math.max(most, kind.rank), 0),
		unread: all.length - read
	};
}

/** A station may claim a million lanes; beyond one for each person, and those with bookings that stand, none matters. */
function lanesOf(
	model: EnrollmentModel,
	station: number,
	people: number,
	standing: readonly StandingBooking[]
): number[] {
	const { lanes } = (model.stations[station] as ReadyStation).station;
	if (lanes <= people) return Array.from({ length: lanes }, (_, index) => index + 1);
	const taken = new Set(standing.filter((one) => one.station === station && one.lane <= lanes).map(({ lane }) => lane));
	const numbers = new Set(taken);
	for (let lane = 1; lane <= lanes && numbers.size < taken.size + people; lane++) numbers.add(lane);
	return [...numbers].sort((a, b) => a - b);
}

/** The limits that can bind: fewer may be away than there are people in the department. */
function limitsOf(model: EnrollmentModel): Limit[] {
	const sizes = new Map<string, number>();
	for (const { department } of model.rollout.people) {
		if (department !== null) sizes.set(department, (sizes.get(department) ?? 0) + 1);
	}
	return [...model.maxAwayByDepartment]
		.filter(([department, maxAway]) => maxAway < (sizes.get(department) ?? 0))
		.map(([department, maxAway]) => ({ department, maxAway }));
}

/** So many people are made ready, and planned a first time, whatever the time: it takes a moment. */
export const readAnyway = 3000;

interface KindTerms {
	readonly model: EnrollmentModel;
	readonly lattices: readonly Lattice[];
	readonly people: readonly Person[];
	readonly durations: readonly number[];
	readonly limits: readonly Limit[];
	readonly reading: Reading;
}

/** The kinds of the first people, as many as were read before time was over. */
function kindsOf(
	{ model, lattices, people, durations, limits, reading }: KindTerms,
	isOver: () => boolean
): { readonly kinds: Kind[]; readonly read: number } {
	const limitByDepartment = new Map(limits.map((limit, index) => [limit.department, index]));
	const rankOf = ranksOf(model, people);
	const placesFor = placesCache(model, lattices, reading);
	const durationOf = new Map(durations.map((minutes, place) => [minutes, place]));
	const kinds = new Map<string, Kind & { members: number[] }>();
	let read = 0;
	for (const [index, person] of people.entries()) {
		if (index >= readAnyway && index % 64 === 63 && isOver()) break;
		read = index + 1;
		const minutes = model.minutesOf(person);
		const places = placesFor(person);
		const limit = person.department === null ? -1 : (limitByDepartment.get(person.department) ?? -1);
		const rank = rankOf(person);
		const key = `${minutes} ${limit} ${rank} ${places.key}`;
		let kind = kinds.get(key);
		if (!kind) {
			kind = {
				windows: places.windows,
				walks: places.walks,
				minutes: minutes ?? 0,
				duration: durationOf.get(minutes ?? -1) ?? -1,
				limit,
				rank,
				members: []
			};
			kinds.set(key, kind);
		}
		kind.members.push(index);
	}
	return { kinds: [...kinds.values()], read };
}

/** Where somebody may start, and how far they walk, by station. */
interface Places {
	/** The same for people with the same windows and walks. */
	readonly key: number;
	readonly windows: readonly (Window | null)[];
	readonly walks: readonly number[];
}

/** Windows of people, one list for all who have the same free time, station time, due date, work areas and needs. */
function placesCache(
	model: EnrollmentModel,
	lattices: readonly Lattice[],
	reading: Reading
): (person: Person) => Places {
	const free = freeCache(model);
	const windows = windowCache(lattices);
	const walksByAreas = new Map<string, readonly number[]>();
	const servesByNeeds = new Map<string, readonly boolean[]>();
	const known = new Map<string, Places>();
	const byHash = new Map<number, Places[]>();
	let keys = 0;
	return (person) => {
		const minutes = model.minutesOf(person);
		const own = free(person);
		const enrollBy = model.enrollByOf(person);
		const areas = JSON.stringify(person.workAreas);
		const needs = JSON.stringify(person.needs);
		const signature = `${minutes} ${own.key} ${enrollBy} ${areas} ${needs}`;
		let places = known.get(signature);
		if (places) return places;
		const until = enrollBy === null ? Infinity : model.endOf(enrollBy);
		let walks = walksByAreas.get(areas);
		if (!walks) {
			walks = lattices.map(({ ready }) => model.walkOf(person, ready.station.area));
			walksByAreas.set(areas, walks);
		}
		let serves = servesByNeeds.get(needs);
		if (!serves) {
			serves = lattices.map(({ ready }) => person.needs.every((need) => ready.serves.has(need)));
			servesByNeeds.set(needs, serves);
		}
		const windowAt = windows(own, (minutes ?? 0) * 60, until);
		const found: (Window | null)[] = [];
		for (let station = 0; station < lattices.length; station++) {
			const walk = walks[station] as number;
			const isOut = minutes === undefined || !serves[station] || (reading === 'strict' && walk > longestWalk);
			found.push(isOut ? null : windowAt(station, walk));
		}
		const hash = hashOfPlaces(found, walks);
		const alike = byHash.get(hash) ?? [];
		places = alike.find((one) => isSamePlaces(one, found, walks));
		if (!places) {
			places = { key: keys++, windows: found, walks };
			alike.push(places);
			byHash.set(hash, alike);
		}
		known.set(signature, places);
		return places;
	};
}

/** Windows that allow the same slots are one object, for bookings of one length. */
function isSamePlaces(places: Places, windows: readonly (Window | null)[], walks: readonly number[]): boolean {
	for (let station = 0; station < windows.length; station++) {
		if (places.windows[station] !== windows[station]) return false;
		if (windows[station] && places.walks[station] !== walks[station]) return false;
	}
	return true;
}

function hashOfPlaces(windows: readonly (Window | null)[], walks: readonly number[]): number {
	let hash = 0;
	for (let station = 0; station < windows.length; station++) {
		const window = windows[station];
		if (!window) continue;
		hash = (Math.imul(hash, 31) + window.size + 7 * station) | 0;
		hash = (Math.imul(hash, 31) + (window.lo[0] as number) + (walks[station] as number)) | 0;
		hash = (Math.imul(hash, 31) + (window.hi[window.hi.length - 1] as number)) | 0;
	}
	return hash;
}

function ranksOf(model: EnrollmentModel, people: readonly Person[]): (person: Person) => number {
	const dateOf = (person: Person): LocalDate | null => (person.wave === null ? null : model.enrollByOf(person));
	const dates = [...new Set(people.map(dateOf))].filter((date) => date !== null).sort();
	return (person) => {
		const date = dateOf(person);
		return date === null ? dates.length : dates.indexOf(date);
	};
}

/** Free spans of people over the open dates, one list for all who have the same. */
function freeCache(model: EnrollmentModel): (person: Person) => { key: number; spans: readonly Span[] } {
	const known = new Map<string, { key: number; spans: readonly Span[] }>();
	return (person) => {
		const days = model.openDays;
		if (!days) return { key: 0, spans: [] };
		const employed = model.employedDaysOf(person);
		// Limits far from every open date change nothing, and must not tell people apart.
		const absences = employed.absences
			.filter((absence) => absence.until >= days.from - 3 && absence.from <= days.until + 3)
			.map((absence) => `${absence.from}..${absence.until}`)
			.sort();
		const from = employed.from < days.from - 3 ? -Infinity : employed.from;
		const until = employed.until > days.until + 3 ? Infinity : employed.until;
		const signature = `${from} ${until} ${absences.join(',')} ${person.shiftPattern ?? ''}\n${person.shiftPattern === null}`;
		let found = known.get(signature);
		if (!found) {
			const spans = [...model.freeSpansOf(person, days.from, plusTwo(days.until))].sort((a, b) => a.from - b.from);
			found = { key: known.size, spans };
			known.set(signature, found);
		}
		return found;
	};
}

function plusTwo<T extends number>(day: T): T {
	return (day + 2) as T;
}

/** Windows by what decides them; those of a station and a station time that allow the same slots are one object. */
function windowCache(lattices: readonly Lattice[]) {
	const meetings = lattices.map(() => new Map<number, readonly Meeting[]>());
	const byContent = lattices.map(() => new Map<number, { readonly seconds: number; readonly window: Window }[]>());
	const byTerms = new Map<string, Map<number, Window | null>[]>();
	const same = (station: number, seconds: number, window: Window): Window => {
		const own = byContent[station] as Map<number, { readonly seconds: number; readonly window: Window }[]>;
		const hash = hashOfWindow(window);
		const alike = own.get(hash);
		const found = alike?.find((one) => one.seconds === seconds && isSameWindow(one.window, window));
		if (found) return found.window;
		if (alike) alike.push({ seconds, window });
		else own.set(hash, [{ seconds, window }]);
		return window;
	};
	return (free: { readonly key: number; readonly spans: readonly Span[] }, seconds: number, until: number) => {
		const key = `${free.key} ${seconds} ${until}`;
		let known = byTerms.get(key);
		if (!known) byTerms.set(key, (known = lattices.map(() => new Map<number, Window | null>())));
		const byStation = known;
		return (station: number, walk: number): Window | null => {
			const byWalk = byStation[station] as Map<number, Window | null>;
			const before = byWalk.get(walk);
			if (before !== undefined) return before;
			const lattice = lattices[station] as Lattice;
			const ownMeetings = meetings[station] as Map<number, readonly Meeting[]>;
			let met = ownMeetings.get(free.key);
			if (!met) ownMeetings.set(free.key, (met = meetingsOf(lattice, free.spans)));
			const window = windowOf(lattice, met, { seconds, walk, until });
			const found = window ? same(station, seconds, window) : null;
			byWalk.set(walk, found);
			return found;
		};
	};
}

function standingBookings(
	model: EnrollmentModel,
	fixed: FixedBookings,
	limits: readonly Limit[],
	reading: Reading
): StandingBooking[] {
	const stations = new Map(model.stations.map(({ station }, index) => [station.id, index]));
	const kept = reading === 'strict' ? [...fixed.valid, ...fixed.broken] : fixed.valid;
	return kept.flatMap((booking) => {
		const person = model.peopleById.get(booking.person);
		const station = stations.get(booking.station);
		if (!person || station === undefined) return [];
		if (model.standings.get(person.id) !== 'to-book') return [];
		const from = model.zone.instantOf(wallTimeOf(booking.start));
		const area = model.stations[station]?.station.area ?? '';
		return [
			{
				booking,
				station,
				lane: booking.lane,
				from,
				to: from + booking.minutes * 60,
				walk: model.walkOf(person, area),
				limit: limits.findIndex((limit) => limit.department === person.department)
			}
		];
	});
}
