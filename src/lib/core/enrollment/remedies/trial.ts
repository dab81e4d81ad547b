import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Rollout } from '../../document/schema';
import { Board } from '../board';
import { bookingsOf } from '../board-bookings';
import { exactPlan } from '../exact';
import { type FixedBookings, fixedBookings } from '../fixed';
import { bookAll, waitingOn } from '../improve';
import { type Instance, type Kind, instanceOf, isAmbiguous } from '../instance';
import { EnrollmentModel } from '../model';
import { ProofSpace } from '../proof-space';
import type { PlannedBooking } from '../validity';
import { withChanges } from './entry-change';
import { type Pulled, changesOf } from './levers';

/** What was planned before. */
export interface TrialTerms {
	readonly rollout: Rollout;
	readonly bookings: readonly PlannedBooking[];
}

/** What came of a changed rollout when it was planned. */
export interface Outcome {
	/** People booked, whoever they are, and how many of those asked for. */
	readonly booked: number;
	readonly inside: number;
	/**
	 * People of whom it is known that planning again books them: none, where others could take the place of those asked for, or
	 * those asked for would take the place of others.
	 */
	readonly sure: ReadonlySet<string>;
}

/** Up to so many people to book, a changed rollout is planned from the beginning in each trial. */
const mostFromBeginning = 250;

/**
 * Plans changed rollouts. A remedy must hold whoever is planned first: where as many people could be booked without somebody of the
 * shortfall, it is not enough. So everybody who competes must find room too, or the exact planner must choose those people. Nor is it
 * enough where they only change places with people who were booked: it must book as many more as were missing.
 */
export class Trials {
	readonly #terms: TrialTerms;
	readonly #before: ReadonlySet<string>;
	#isOver: () => boolean = () => false;
	readonly isLarge: boolean;
	/** Trials made so far. */
	made = 0;

	constructor(terms: TrialTerms, toBook: number) {
		this.#terms = terms;
		this.#before = new Set(terms.bookings.map(({ person }) => person));
		this.isLarge = toBook > mostFromBeginning;
	}

	/** True once time is over, by what was last said about it. */
	get isOver(): boolean {
		return this.#isOver();
	}

	/** Says when to stop. */
	hear(isOver: () => boolean): void {
		this.#isOver = isOver;
	}

	/**
	 * Undefined where the document does not admit the changes, or somebody would lose their place. With a seed, everything is planned
	 * from the beginning, also with many people.
	 */
	of(pulled: readonly Pulled[], people: ReadonlySet<string>, seed?: number): Outcome | undefined {
		const { rollout, bookings } = this.#terms;
		const isOver = this.#isOver;
		const changes = changesOf(rollout, pulled);
		if (!changes) return undefined;
		this.made++;
		const model = new EnrollmentModel(withChanges(rollout, changes));
		const isHeld = this.isLarge && seed === undefined;
		const fixed = isHeld ? heldBookings(model, bookings) : fixedBookings(model);
		const { board, booked } = planAnew(model, fixed, seed ?? 1, isOver);
		const inside = [...people].filter((id) => booked.has(id)).length;
		if (booked.size < bookings.length) return undefined;
		const outcome = { booked: booked.size, inside };
		if (inside < people.size) return { ...outcome, sure: none };
		const least = bookings.length + people.size - [...people].filter((id) => this.#before.has(id)).length;
		const waiting = waitingOn(board);
		if (waiting.length === 0) return { ...outcome, sure: booked };
		if (!this.isLarge) {
			const exact = exactlyBooked(model, fixed, isOver);
			if (exact) return { ...outcome, sure: exact.size >= least && includes(exact, people) ? exact : none };
		}
		const safe = safeFrom(board, waiting, booked);
		return { ...outcome, sure: booked.size >= least && includes(safe, people) ? safe : none };
	}

	/** The plan of a changed rollout, for looking on from there. */
	planOf(pulled: readonly Pulled[]): { readonly rollout: Rollout; readonly bookings: readonly PlannedBooking[] } {
		const rollout = withChanges(this.#terms.rollout, changesOf(this.#terms.rollout, pulled) ?? []);
		const model = new EnrollmentModel(rollout);
		const fixed = this.isLarge ? heldBookings(model, this.#terms.bookings) : fixedBookings(model);
		const { board } = planAnew(model, fixed, 1, this.#isOver);
		return { rollout, bookings: [...fixed.valid, ...bookingsOf(board)] };
	}
}

const none: ReadonlySet<string> = new Set();

function includes(all: ReadonlySet<string>, some: ReadonlySet<string>): boolean {
	return [...some].every((id) => all.has(id));
}

const standing = { fixed: true, toldOn: null, toldOf: null };

/** The bookings of the plan as if they were fixed: changes only ever give more room, so that they stay valid. */
function heldBookings(model: EnrollmentModel, bookings: readonly PlannedBooking[]): FixedBookings {
	const broken = fixedBookings(model).broken;
	return { valid: bookings.map((booking) => ({ ...booking, ...standing })), broken };
}

function planAnew(
	model: EnrollmentModel,
	fixed: FixedBookings,
	seed: number,
	isOver: () => boolean
): { readonly board: Board; readonly booked: ReadonlySet<string> } {
	const instance = instanceOf(model, fixed, 'strict');
	const board = new Board(instance);
	const space = new ProofSpace(isAmbiguous(model, fixed) ? instanceOf(model, fixed, 'lenient') : instance);
	bookAll(board, space, xoroshiro128plus(seed), isOver);
	const booked = new Set(fixed.valid.map(({ person }) => person));
	instance.people.forEach(({ id }, index) => {
		if ((board.cellOf[index] as number) >= 0) booked.add(id);
	});
	return { board, booked };
}

/** Whom the best plan books; undefined where it cannot be known. */
function exactlyBooked(
	model: EnrollmentModel,
	fixed: FixedBookings,
	isOver: () => boolean
): ReadonlySet<string> | undefined {
	const instance = instanceOf(model, fixed, 'strict');
	const board = new Board(instance);
	const exact = exactPlan(board, waitingOn(board), isOver);
	if (!exact) return undefined;
	const booked = new Set(fixed.valid.map(({ person }) => person));
	for (const { person } of exact.bookings) booked.add(instance.people[person]?.id ?? '');
	return booked;
}

/** Those booked who share no lane time and no limit with anybody who waits: nobody could take their place. */
function safeFrom({ instance }: Board, waiting: readonly number[], booked: ReadonlySet<string>): Set<string> {
	const others = new Set(waiting.map((person) => instance.kindOf[person] as number));
	const isSafe = instance.kinds.map((kind) =>
		[...others].every((other) => !doMeet(instance, kind, instance.kinds[other] as Kind))
	);
	const safe = new Set(booked);
	instance.people.forEach(({ id }, index) => {
		if (!isSafe[instance.kindOf[index] as number]) safe.delete(id);
	});
	return safe;
}

function doMeet({ next }: Instance, kind: Kind, other: Kind): boolean {
	if (kind.limit >= 0 && kind.limit === other.limit) return true;
	return kind.windows.some((window, station) => {
		const its = other.windows[station];
		if (!window || !its) return false;
		const [ends, itsEnds] = [next[station]?.[kind.duration], next[station]?.[other.duration]];
		if (!ends || !itsEnds) return false;
		for (let a = 0, b = 0; a < window.lo.length && b < its.lo.length;) {
			const [end, itsEnd] = [ends[window.hi[a] as number] as number, itsEnds[its.hi[b] as number] as number];
			if (end <= (its.lo[b] as number)) a++;
			else if (itsEnd <= (window.lo[a] as number)) b++;
			else return true;
		}
		return false;
	});
}
