import type { Booking, Person, Rollout, Station } from '../../src/lib/core/document/schema';
import { Timeline, daysBetween, plusDays } from './timeline';

/**
 * "Meaning: a valid enrollment plan" of the document format, written down a second time as plainly as possible: minutes
 * are counted one by one, nothing is prepared, and nothing of what is judged is used. Only the shape of a rollout that was read is shared.
 */

export type PlainBooking = Pick<Booking, 'person' | 'station' | 'lane' | 'start' | 'minutes'>;

export class PlanOracle {
	readonly rollout: Rollout;
	readonly time: Timeline;
	readonly #dates: { first: string; last: string };

	constructor(rollout: Rollout) {
		this.rollout = rollout;
		const dates = [
			rollout.horizon.from,
			rollout.horizon.until,
			...rollout.enrollment.stations.flatMap((station) => station.open.map((opening) => opening.date)),
			...rollout.enrollment.bookings.map((booking) => booking.start.slice(0, 10))
		].sort();
		this.#dates = { first: dates[0] ?? '', last: dates.at(-1) ?? '' };
		this.time = new Timeline(rollout.site.timeZone, this.#dates.first, this.#dates.last);
	}

	person(id: string): Person | undefined {
		return this.rollout.people.find((person) => person.id === id);
	}

	station(id: string): Station | undefined {
		return this.rollout.enrollment.stations.find((station) => station.id === id);
	}

	/** Minutes of a person's capture class; the first class where they name none. */
	minutesOf(person: Person): number | undefined {
		const { captureClasses } = this.rollout.enrollment;
		return captureClasses.find(({ id }) => id === (person.captureClass ?? captureClasses[0]?.id))?.minutes;
	}

	/** From and to of a stretch that begins on a date; undefined when it is empty or the date does not exist. */
	stretch(date: string, at: string): { from: number; to: number } | undefined {
		const [begin, end] = at.split('-') as [string, string];
		if (!this.time.hasDate(date)) return undefined;
		const isOvernight = end !== '24:00' && end <= begin;
		const from = this.#minute(date, begin);
		const to = this.#minute(isOvernight || end === '24:00' ? plusDays(date, 1) : date, end === '24:00' ? '00:00' : end);
		return from < to ? { from, to } : undefined;
	}

	/** A date's midnight is its first instant; other times as the clock shows them. */
	#minute(date: string, clock: string): number {
		return clock === '00:00' ? this.time.firstMinuteOf(date) : this.time.minuteOf(date, clock);
	}

	openStretches(station: Station): { date: string; at: string; from: number; to: number }[] {
		return station.open.flatMap(({ date, at }) => {
			const found = this.stretch(date, at);
			return found ? [{ date, at, ...found }] : [];
		});
	}

	startOf(booking: PlainBooking): number {
		return this.time.minuteOf(booking.start.slice(0, 10), booking.start.slice(11));
	}

	/** The least entry between one of the person's areas and the station's; 0 where there is none. */
	walkOf(person: Person, station: Station): number {
		const minutes = this.rollout.enrollment.walks
			.filter(({ between: [a, b] }) =>
				person.workAreas.some((area) => (area === a && station.area === b) || (area === b && station.area === a))
			)
			.map((walk) => walk.minutes);
		return minutes.length === 0 ? 0 : Math.min(...minutes);
	}

	isEmployedOn(person: Person, date: string): boolean {
		return (
			(person.startsOn === null || person.startsOn <= date) && (person.leavesOn === null || date <= person.leavesOn)
		);
	}

	isAbsentOn(person: Person, date: string): boolean {
		return this.rollout.absences.some(
			(absence) =>
				absence.person === person.id &&
				(absence.from === null || absence.from <= date) &&
				(absence.until === null || date <= absence.until)
		);
	}

	/** Rule 3: may the person be away from minute `from` to minute `to`? */
	isFree(person: Person, from: number, to: number): boolean {
		for (let minute = from; minute < Math.max(to, from + 1); minute++) {
			if (minute < 0 || minute >= this.time.length) return false;
			const date = this.time.dateAt(minute);
			if (!this.isEmployedOn(person, date)) return false;
			if (person.shiftPattern === null && this.isAbsentOn(person, date)) return false;
		}
		if (person.shiftPattern === null) return true;
		return this.shiftsNear(person, from).some((shift) => shift.from <= from && to <= shift.to);
	}

	/** Shifts of a person that start on the date of a minute, the two before, or the one after. */
	shiftsNear(person: Person, minute: number): { from: number; to: number }[] {
		const pattern = this.rollout.shiftPatterns.find(({ id }) => id === person.shiftPattern);
		if (!pattern) return [];
		return [-2, -1, 0, 1].flatMap((shift) => {
			const date = plusDays(this.time.dateAt(minute), shift);
			if (!this.isEmployedOn(person, date) || this.isAbsentOn(person, date)) return [];
			const holiday = this.rollout.holidays.days.find((one) => one.date === date);
			if (holiday && !pattern.worksOn.includes(holiday.kind)) return [];
			const days = daysBetween(pattern.anchor, date);
			const cycleDay = ((days % pattern.cycleDays) + pattern.cycleDays) % pattern.cycleDays;
			return pattern.shifts.flatMap((one) => {
				if (one.day !== cycleDay) return [];
				const found = this.stretch(date, one.at);
				return found ? [found] : [];
			});
		});
	}

	/** Rule 5: the minute by which a person must have been enrolled; infinite where their wave names no date. */
	endOf(person: Person): number {
		const wave = this.rollout.enrollment.waves.find(({ id }) => id === person.wave);
		const date = wave ? wave.enrollBy : this.rollout.horizon.until;
		if (date === null) return Infinity;
		return date > this.#dates.last
			? Infinity
			: date < this.#dates.first
				? -Infinity
				: this.time.firstMinuteOf(plusDays(date, 1));
	}

	isDeclined(person: Person): boolean {
		let latest: { on: string; decision: string } | undefined;
		for (const consent of this.rollout.privacy.consents) {
			if (consent.person === person.id && (!latest || consent.on >= latest.on)) latest = consent;
		}
		return latest !== undefined && latest.decision !== 'given';
	}

	isEnrolled(person: Person): boolean {
		return this.rollout.privacy.templates.some(
			(template) =>
				template.person === person.id &&
				template.storedOn.some(
					(place) => !template.erasures.some(({ from, on }) => from === place && on >= template.enrolledOn)
				)
		);
	}

	/** Rules 1 to 5 and 8 of one booking: the numbers of those that it breaks. */
	brokenAlone(booking: PlainBooking): number[] {
		const person = this.person(booking.person);
		const station = this.station(booking.station);
		if (!person || !station) return [1];
		const broken: number[] = [];
		const from = this.startOf(booking);
		const to = from + booking.minutes;
		const clock = Number(booking.start.slice(11, 13)) * 60 + Number(booking.start.slice(14));
		if (booking.minutes !== this.minutesOf(person) || clock % this.rollout.enrollment.gridMinutes !== 0) broken.push(1);
		const isOpen = this.openStretches(station).some((open) => open.from <= from && from < open.to && to <= open.to);
		if (!isOpen || booking.lane < 1 || booking.lane > station.lanes) broken.push(2);
		const walk = this.walkOf(person, station);
		if (!this.isFree(person, from - walk, to + walk)) broken.push(3);
		if (!person.needs.every((need) => station.serves.includes(need))) broken.push(4);
		if (to > this.endOf(person)) broken.push(5);
		if (this.isDeclined(person) || this.isEnrolled(person)) broken.push(8);
		return broken;
	}

	/** Everything that is wrong with a plan, as sentences; empty when it is valid. Fixed bookings that are valid must be in it. */
	faultsOf(bookings: readonly PlainBooking[]): string[] {
		const faults: string[] = [];
		for (const booking of bookings) {
			for (const rule of this.brokenAlone(booking)) faults.push(`rule ${rule}: ${JSON.stringify(booking)}`);
		}
		for (const [index, a] of bookings.entries()) {
			for (const b of bookings.slice(index + 1)) {
				if (a.person === b.person) faults.push(`rule 1: ${a.person} twice`);
				if (!this.goTogether(a, b)) {
					faults.push(`rule 2: ${JSON.stringify(a)} and ${JSON.stringify(b)}`);
				}
			}
		}
		return [...faults, ...this.#awayFaults(bookings)];
	}

	/** Rule 2 between two bookings. */
	goTogether(a: PlainBooking, b: PlainBooking): boolean {
		if (a.station !== b.station || a.lane !== b.lane) return true;
		const turnover = this.station(a.station)?.turnoverMinutes ?? 0;
		const [x, y] = [this.startOf(a), this.startOf(b)];
		return y >= x + a.minutes + turnover || x >= y + b.minutes + turnover;
	}

	#awayFaults(bookings: readonly PlainBooking[]): string[] {
		const faults: string[] = [];
		for (const { department, maxAway } of this.rollout.enrollment.awayLimits) {
			if (maxAway === null) continue;
			const awayAt = new Map<number, number>();
			for (const booking of bookings) {
				const person = this.person(booking.person);
				const station = this.station(booking.station);
				if (!person || !station || person.department !== department) continue;
				const walk = this.walkOf(person, station);
				const from = this.startOf(booking) - walk;
				for (let minute = from; minute < from + booking.minutes + 2 * walk; minute++) {
					awayAt.set(minute, (awayAt.get(minute) ?? 0) + 1);
				}
			}
			const over = [...awayAt].find(([, count]) => count > maxAway);
			if (over) faults.push(`rule 6: ${over[1]} of ${department} away at ${this.time.textOf(over[0])}`);
		}
		return faults;
	}

	/** Every start that a person could have if nobody else were booked, as bookings in lane 1. */
	validStarts(person: Person): PlainBooking[] {
		const minutes = this.minutesOf(person);
		if (minutes === undefined) return [];
		const starts: PlainBooking[] = [];
		const { gridMinutes, stations } = this.rollout.enrollment;
		for (const station of stations) {
			const dates = new Set(station.open.flatMap(({ date }) => [-1, 0, 1, 2].map((shift) => plusDays(date, shift))));
			for (const date of dates) {
				for (let minute = 0; minute < 1440; minute += gridMinutes) {
					const clock = new Date(minute * 60_000).toISOString().slice(11, 16);
					const booking = {
						person: person.id,
						station: station.id,
						lane: 1,
						start: `${date}T${clock}` as never,
						minutes
					};
					if (this.brokenAlone(booking).length === 0) starts.push(booking);
				}
			}
		}
		return starts;
	}

	/** Open stretches of lanes that hold a booking, as `station lane date at`. */
	sessionsOf(bookings: readonly PlainBooking[]): string[] {
		const sessions = new Set<string>();
		for (const booking of bookings) {
			const station = this.station(booking.station);
			const from = this.startOf(booking);
			const open =
				station && this.openStretches(station).find((one) => one.from <= from && from + booking.minutes <= one.to);
			if (open) sessions.add(`${booking.station} ${booking.lane} ${open.date} ${open.at}`);
		}
		return [...sessions].sort();
	}
}
