import type { Person, Rollout } from '../../src/lib/core/document/schema';
import type { PlanOracle } from './plan-oracle';
import { type PlainBooking } from './plan-oracle';

/** A shortfall as the contract of the command line has it. */
export interface PlainShortfall {
	readonly kind: string;
	readonly people: readonly string[];
	readonly department?: string;
	readonly neededMinutes: number;
	readonly availableMinutes: number;
	readonly stretches: readonly { station: string; lane: number; from: string; to: string }[];
}

/**
 * Holds a shortfall against its definition: every number is reckoned anew from the valid starts of each person, found one
 * by one. Gives what is wrong with it, as sentences.
 */
export class ProofOracle {
	readonly #oracle: PlanOracle;
	readonly #rollout: Rollout;
	readonly #starts = new Map<string, PlainBooking[]>();
	/** Fixed bookings that are valid: their lane time is not to be had. */
	readonly #fixed: readonly PlainBooking[];

	constructor(oracle: PlanOracle) {
		this.#oracle = oracle;
		this.#rollout = oracle.rollout;
		this.#fixed = oracle.rollout.enrollment.bookings.filter(
			(booking) => booking.fixed && oracle.brokenAlone(booking).length === 0
		);
	}

	/** Starts of a person in some lane that no fixed booking takes. */
	startsOf(id: string): PlainBooking[] {
		const known = this.#starts.get(id);
		if (known) return known;
		const person = this.#oracle.person(id) as Person;
		const own = this.#fixed.find((booking) => booking.person === id);
		const starts = own
			? [own]
			: this.#oracle.validStarts(person).flatMap((start) => {
					const lanes = this.#oracle.station(start.station)?.lanes ?? 0;
					return Array.from({ length: lanes }, (_, index) => ({ ...start, lane: index + 1 })).filter((booking) =>
						this.#fixed.every((fixed) =>
							this.#oracle.faultsOf([fixed, booking]).every((fault) => !fault.startsWith('rule 2'))
						)
					);
				});
		this.#starts.set(id, starts);
		return starts;
	}

	faultsOf(shortfall: PlainShortfall): string[] {
		const faults = new Set<string>();
		if (new Set(shortfall.people).size !== shortfall.people.length) faults.add('somebody is listed twice');
		for (const id of shortfall.people) {
			const person = this.#oracle.person(id);
			if (!person) faults.add(`${id} is nobody`);
			else if (this.#oracle.isDeclined(person) || this.#oracle.isEnrolled(person))
				faults.add(`${id} is not to be booked`);
		}
		if (faults.size > 0) return [...faults];
		if (shortfall.kind === 'no-common-time') {
			if (shortfall.people.length !== 1) faults.add('no-common-time is of one person');
			for (const id of shortfall.people) {
				const person = this.#oracle.person(id) as Person;
				if (this.#oracle.validStarts(person).length > 0) faults.add(`${id} has a valid start`);
			}
			return [...faults];
		}
		if (!(shortfall.neededMinutes > shortfall.availableMinutes)) faults.add('needed does not exceed available');
		const sums = shortfall.kind === 'away-limit' ? this.#awaySums(shortfall) : this.#stationSums(shortfall, faults);
		if (sums.needed !== shortfall.neededMinutes) faults.add(`needed is ${sums.needed}, not ${shortfall.neededMinutes}`);
		if (sums.available !== shortfall.availableMinutes) {
			faults.add(`available is ${sums.available}, not ${shortfall.availableMinutes}`);
		}
		return [...faults];
	}

	/** True when somebody could be taken from the list and it would still prove, pieces reckoned anew. */
	canBeShortened(shortfall: PlainShortfall): boolean {
		return shortfall.people.some((id) => {
			const people = shortfall.people.filter((other) => other !== id);
			if (shortfall.kind === 'away-limit') {
				const { needed, available } = this.#awaySums({ ...shortfall, people });
				return needed > available;
			}
			const stretches = shortfall.stretches.flatMap((piece) => {
				const inside = people.flatMap((other) => this.startsOf(other)).filter((start) => this.#isIn(start, piece));
				if (inside.length === 0) return [];
				const from = Math.min(...inside.map((start) => this.#oracle.startOf(start)));
				const to = Math.max(...inside.map((start) => this.#oracle.startOf(start) + start.minutes));
				return [{ ...piece, from: this.#oracle.time.textOf(from), to: this.#oracle.time.textOf(to) }];
			});
			const { needed, available } = this.#stationSums({ ...shortfall, people, stretches }, new Set());
			return needed > available;
		});
	}

	#isIn(start: PlainBooking, piece: PlainShortfall['stretches'][number]): boolean {
		const from = this.#oracle.startOf(start);
		const { time } = this.#oracle;
		return (
			start.station === piece.station &&
			start.lane === piece.lane &&
			time.minuteOfText(piece.from) <= from &&
			from + start.minutes <= time.minuteOfText(piece.to)
		);
	}

	#stationSums(shortfall: PlainShortfall, faults: Set<string>): { needed: number; available: number } {
		const { gridMinutes } = this.#rollout.enrollment;
		const up = (minutes: number): number => Math.ceil(minutes / gridMinutes) * gridMinutes;
		const turnoverOf = (station: string): number => this.#oracle.station(station)?.turnoverMinutes ?? 0;
		const used = new Map<string, { from: number; to: number }>();
		const pieceKey = (piece: object): string => JSON.stringify(piece);
		let needed = 0;
		for (const id of shortfall.people) {
			const starts = this.startsOf(id);
			const person = this.#oracle.person(id) as Person;
			const stations = starts.length > 0 ? starts : this.#oracle.validStarts(person);
			const minutes = this.#oracle.minutesOf(person) ?? 0;
			needed += Math.min(...stations.map((start) => up(minutes + turnoverOf(start.station))));
			for (const start of starts) {
				const piece = shortfall.stretches.find((one) => this.#isIn(start, one));
				if (!piece) {
					faults.add(`${id} could start outside of the pieces: ${JSON.stringify(start)}`);
					continue;
				}
				const from = this.#oracle.startOf(start);
				const before = used.get(pieceKey(piece)) ?? { from: Infinity, to: -Infinity };
				used.set(pieceKey(piece), {
					from: Math.min(before.from, from),
					to: Math.max(before.to, from + start.minutes)
				});
			}
		}
		let available = 0;
		for (const piece of shortfall.stretches) {
			const [from, to] = [this.#oracle.time.minuteOfText(piece.from), this.#oracle.time.minuteOfText(piece.to)];
			const span = used.get(pieceKey(piece));
			if (!span || span.from !== from || span.to !== to)
				faults.add(`a piece is not as it is used: ${JSON.stringify(piece)}`);
			available += up(to - from + turnoverOf(piece.station));
		}
		return { needed, available };
	}

	#awaySums(shortfall: PlainShortfall): { needed: number; available: number } {
		const limits = this.#rollout.enrollment.awayLimits
			.filter((limit) => limit.department === shortfall.department && limit.maxAway !== null)
			.map((limit) => limit.maxAway as number);
		const minutesAway = new Set<number>();
		let needed = 0;
		for (const id of shortfall.people) {
			const person = this.#oracle.person(id) as Person;
			if (person.department !== shortfall.department) return { needed: 0, available: 0 };
			let least = Infinity;
			for (const start of this.startsOf(id)) {
				const station = this.#oracle.station(start.station);
				const walk = station ? this.#oracle.walkOf(person, station) : 0;
				const from = this.#oracle.startOf(start) - walk;
				least = Math.min(least, start.minutes + 2 * walk);
				for (let minute = from; minute < from + start.minutes + 2 * walk; minute++) minutesAway.add(minute);
			}
			needed += least;
		}
		return { needed, available: Math.min(...limits) * minutesAway.size };
	}
}
