import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Rollout } from '../../document/schema';
import { Board, type Lane } from '../board';
import { exactPlan } from '../exact-limits';
import { fixedBookings } from '../fixed';
import { bookAll, waitingOn } from '../improve';
import { instanceOf, isAmbiguous } from '../instance';
import { EnrollmentModel } from '../model';
import { ProofSpace } from '../proof-space';
import type { Remedy, Shortfall } from '../shortfalls';
import type { PlannedBooking } from '../validity';
import { type EntryChange, withChanges } from './entry-change';
import { type Step, stepsFor } from './steps';

/**
 * What would book everybody of a shortfall, priced.
 *
 * The idea: every lever is tried alone at its most, from the cheapest kind on, by really planning the changed rollout; where none is
 * enough by itself, the one that books most for its price is kept and the search goes on from there. Then each amount is
 * lowered as far as everybody is still booked, and levers that are no longer needed are let go. So what is told has been tried, and
 * no amount in it can be lowered alone; that no other set is cheaper is not proved.
 */
export interface RemedyTerms {
	readonly rollout: Rollout;
	readonly bookings: readonly PlannedBooking[];
	readonly unbooked: ReadonlySet<string>;
	/** Those of them to whom no station is open at any time. */
	readonly withoutTime: ReadonlySet<string>;
	readonly isOver: () => boolean;
}

/** Plans that may be made for one shortfall, and remedies told of one. */
const mostPlans = 80;
const mostTold = 4;

/** Rollouts with more people are tried with the bookings of everybody outside the shortfall held still. */
const manyPeople = 60;

/** Remedies for a shortfall, each enough by itself, the cheapest first. Empty where time is short or nothing helps. */
export function findRemedies(shortfall: Shortfall, terms: RemedyTerms): Remedy[] {
	const missing = shortfall.people.filter((id) => terms.unbooked.has(id));
	if (missing.length === 0 || terms.isOver()) return [];
	const model = new EnrollmentModel(terms.rollout);
	const steps = stepsFor(model, shortfall, missing);
	const trial = new Trial(terms, shortfall);
	const found: Remedy[] = [];
	for (const kind of new Set(steps.map((step) => step.kind))) {
		const pulled = pull(
			trial,
			steps.filter((step) => step.kind === kind)
		);
		if (pulled && trial.isProvenBy(pulled)) found.push(remedyOf(terms.rollout, pulled));
	}
	if (found.length === 0) {
		const pulled = pull(trial, steps);
		if (pulled && trial.isProvenBy(pulled)) found.push(remedyOf(terms.rollout, pulled));
	}
	return found.sort((a, b) => a.cost - b.cost || a.minutes - b.minutes).slice(0, mostTold);
}

/** A lever and how far it is pulled. */
interface Pulled {
	readonly step: Step;
	readonly amount: number;
}

/** Plans changed rollouts, and says how many of the shortfall's people find room. */
class Trial {
	readonly everybody: number;
	readonly #terms: RemedyTerms;
	readonly #people: ReadonlySet<string>;
	#left = mostPlans;

	constructor(terms: RemedyTerms, shortfall: Shortfall) {
		this.#terms = terms;
		this.#people = new Set(shortfall.people);
		this.everybody = shortfall.people.length;
	}

	get isOver(): boolean {
		return this.#left <= 0 || this.#terms.isOver();
	}

	/** People of the shortfall who are booked once levers are pulled; -1 where they cannot be, or others would lose their place. */
	bookedWith(pulled: readonly Pulled[], isExact = false): number {
		if (this.isOver) return -1;
		const { rollout, bookings } = this.#terms;
		const changes = changesOf(rollout, pulled);
		if (!changes) return -1;
		const changed = withChanges(rollout, changes);
		if (this.#people.size === 1 && !canCome(changed, this.#people)) return 0;
		this.#left--;
		const isLarge = rollout.people.length > manyPeople;
		const given = isLarge ? holdingOthers(changed, bookings, this.#people) : changed;
		const { booked, waiting } = bookedIn(given, isExact, this.#terms.isOver);
		const isLost = bookings.some(({ person }) => !booked.has(person) && !this.#people.has(person));
		// Whoever could come now for the first time would compete for the new time.
		const isContested = waiting.some((id) => this.#couldNotCome(id));
		return isLost || isContested ? -1 : [...this.#people].filter((id) => booked.has(id)).length;
	}

	/** True when everybody is booked by the exact planner too, where there is one. */
	isProvenBy(pulled: readonly Pulled[]): boolean {
		return this.bookedWith(pulled, true) === this.everybody;
	}

	#couldNotCome(id: string): boolean {
		return !this.#people.has(id) && this.#terms.withoutTime.has(id);
	}
}

function changesOf(rollout: Rollout, pulled: readonly Pulled[]): EntryChange[] | undefined {
	const changes: EntryChange[] = [];
	let given = rollout;
	for (const { step, amount } of pulled) {
		const more = step.change(given, amount);
		if (!more) return undefined;
		given = withChanges(given, more);
		changes.push(...more);
	}
	return changes;
}

/** The rollout with everybody else's bookings of the plan fixed where they are. */
function holdingOthers(rollout: Rollout, bookings: readonly PlannedBooking[], people: ReadonlySet<string>): Rollout {
	const kept = rollout.enrollment.bookings.filter(({ fixed }) => fixed);
	const known = new Set(kept.map(({ person }) => person));
	const others = bookings.filter(({ person }) => !people.has(person) && !known.has(person));
	return {
		...rollout,
		enrollment: {
			...rollout.enrollment,
			bookings: [...kept, ...others.map((booking) => ({ ...booking, fixed: true, toldOn: null, toldOf: null }))]
		}
	};
}

/** True when some station is open at some time to every one of some people. */
function canCome(rollout: Rollout, ids: ReadonlySet<string>): boolean {
	const people = rollout.people.filter(({ id }) => ids.has(id));
	const model = new EnrollmentModel({ ...rollout, people, enrollment: { ...rollout.enrollment, bookings: [] } });
	const { kinds } = instanceOf(model, { valid: [], broken: [] }, 'strict');
	return kinds.every(({ windows }) => windows.some((window) => window !== null));
}

/** Who is booked in a plan of a rollout, and who is left although some station is open to them. */
function bookedIn(
	rollout: Rollout,
	isExact: boolean,
	isOver: () => boolean
): { booked: ReadonlySet<string>; waiting: readonly string[] } {
	const model = new EnrollmentModel(rollout);
	const fixed = fixedBookings(model);
	const instance = instanceOf(model, fixed, 'strict');
	const board = new Board(instance);
	const exact = isExact ? exactPlan(board, waitingOn(board), isOver) : undefined;
	if (exact) {
		for (const { person, lane, slot } of exact.bookings)
			board.place(person, lane, (board.lanes[lane] as Lane).base + slot);
	} else {
		const space = new ProofSpace(isAmbiguous(model, fixed) ? instanceOf(model, fixed, 'lenient') : instance);
		bookAll(board, space, xoroshiro128plus(1), isOver);
	}
	const booked = new Set(fixed.valid.map(({ person }) => person));
	instance.people.forEach(({ id }, index) => {
		if ((board.cellOf[index] as number) >= 0) booked.add(id);
	});
	return { booked, waiting: waitingOn(board).map((person) => instance.people[person]?.id ?? '') };
}

/** Pulls levers until everybody is booked; undefined where these are not enough, or there is no time. */
function pull(trial: Trial, steps: readonly Step[]): Pulled[] | undefined {
	const pulled: Pulled[] = [];
	let booked = -1;
	while (booked < trial.everybody) {
		let best: { readonly one: Pulled; readonly booked: number; readonly worth: number } | undefined;
		for (const step of steps) {
			if (pulled.some((other) => other.step === step)) continue;
			const found = farthest(trial, pulled, step, Math.max(booked, 0));
			if (!found) continue;
			const gained = found.booked - Math.max(booked, 0);
			// What is enough is only compared by its price; else people for the price count.
			const isEnough = found.booked === trial.everybody;
			const worth = (isEnough ? 1e9 : 0) + gained / (1 + step.cost(found.one.amount));
			if (!best || worth > best.worth) best = { ...found, worth };
		}
		if (!best) return undefined;
		pulled.push(best.one);
		booked = best.booked;
		if (pulled.length > 6) return undefined;
	}
	return lowered(trial, pulled);
}

/** The most of a lever that the document admits, and who is then booked; then as little of it as books as many. */
function farthest(
	trial: Trial,
	pulled: readonly Pulled[],
	step: Step,
	least: number
): { one: Pulled; booked: number } | undefined {
	let amount = step.most;
	let booked = trial.bookedWith([...pulled, { step, amount }]);
	while (booked < 0 && amount > 1 && !trial.isOver) {
		amount = Math.floor(amount / 2);
		booked = trial.bookedWith([...pulled, { step, amount }]);
	}
	if (booked <= least) return undefined;
	let [low, high] = [1, amount];
	while (low < high) {
		const middle = (low + high) >>> 1;
		if (trial.bookedWith([...pulled, { step, amount: middle }]) >= booked) high = middle;
		else low = middle + 1;
	}
	return trial.isOver ? undefined : { one: { step, amount: high }, booked };
}

/** Lets levers go that are not needed, the dearest first. */
function lowered(trial: Trial, pulled: readonly Pulled[]): Pulled[] {
	let kept = [...pulled];
	const byCost = [...pulled].sort((a, b) => b.step.cost(b.amount) - a.step.cost(a.amount));
	for (const one of byCost) {
		if (kept.length === 1) break;
		const rest = kept.filter((other) => other !== one);
		if (trial.bookedWith(rest) === trial.everybody) kept = rest;
	}
	return kept;
}

function remedyOf(rollout: Rollout, pulled: readonly Pulled[]): Remedy {
	const cost = pulled.reduce((sum, { step, amount }) => sum + step.cost(amount), 0);
	return {
		does: pulled.map(({ step, amount }) => step.does(amount)).join('; '),
		minutes: pulled.reduce((sum, { step, amount }) => sum + step.minutes(amount), 0),
		cost: Math.round(cost * 100) / 100,
		edits: changesOf(rollout, pulled) ?? []
	};
}
