import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { Work } from '../kernel/work';
import type { Board } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { chooseSessions } from './choose-sessions';
import { dispatch } from './construct';
import { startEarlier } from './earlier-starts';
import { Ejection } from './eject';
import { SessionCloser } from './fewer-sessions';
import { Best, Snapshot, compareReached, reachedOn } from './goals';
import { walkLess } from './less-walking';
import { type Kind, readAnyway } from './instance';
import type { ProofSpace } from './proof-space';
import { leastLeftOut } from './prove';
import { findGap } from './rooms';
import { FinerBound } from './finer-bound';
import { type SessionBound, boundSessions } from './session-bound';
import { Shaker } from './shake';

/** What is known at the end beside the plan. */
export interface Improved {
	readonly fewestSessions: number;
}

/**
 * Fills a board with the best plan that it finds in time, goal after goal: people, people who are due earlier, sessions, minutes
 * walked, starts. Then parts of the plan are taken apart and put together otherwise, until the time is over.
 *
 * Invariant: what is done, and in which order, hangs on the puzzle and the seed alone; the time only says where it stops. Steps that
 * could be for the worse count once they are done, the others wherever they are cut. So more time never gives a worse plan.
 * Without a clock it ends by itself after a few rounds.
 */
export function improve(
	board: Board,
	space: ProofSpace,
	options: {
		readonly seconds: number;
		/** As `seconds`, once it is proven that some people will be left. */
		readonly secondsIfShort?: number;
		/** Until then a first plan is made whatever the time, and a bound where there is none. */
		readonly secondsAtMost?: number;
		readonly seed: number;
	},
	work: Work
): Improved {
	let { seconds } = options;
	const isOver = (): boolean => work.isCancelled() || work.secondsSpent() >= seconds;
	const isLate = (): boolean =>
		work.isCancelled() || work.secondsSpent() >= Math.max(seconds, options.secondsAtMost ?? seconds);
	const random = xoroshiro128plus(options.seed | 0);
	const report = (): void => {
		const spent = Math.min(1, work.secondsSpent() / Math.max(seconds, 1e-9));
		work.report(Math.floor(100 * spent), 100, `${board.booked} booked, ${board.sessionsUsed} sessions`);
	};
	const best = new Best(board);
	const isMany = board.instance.people.length > manyPeople;
	if (isMany) {
		bookAnywhere(board, isLate);
		best.keep();
		report();
		if (!isOver()) clear(board);
	}
	// The first plan of all is made whatever the time.
	const isSmall = board.instance.people.length <= readAnyway;
	const isLateAtFirst = isSmall ? () => work.isCancelled() : isMany ? isOver : isLate;
	const { isShort } =
		isMany && isOver() ? { isShort: false } : bookAll(board, space, random, isOver, () => best.keep(), isLateAtFirst);
	if (isShort) seconds = Math.min(seconds, options.secondsIfShort ?? seconds);
	report();
	if (isOver() || !best.keep()) best.restore();
	bookEarlierDue(board, isOver);
	best.keep();
	board.forget();
	report();
	const bound = boundSessions(space, board.booked, board.sessionsUsed, isMany ? isOver : isLate);
	report();
	if (board.sessionsUsed > bound.fewest) {
		const end = board.effort + effortForClosing;
		const isEnough = (): boolean => board.effort >= end || isOver();
		new SessionCloser(board, bound, random).closeAll(bound.fewest, [40], isEnough, () => best.keep());
		if (isOver()) best.restore();
	}
	report();
	polish(board, isOver);
	if (!best.keep()) best.restore();
	report();
	const rest = new Rest(best, space, random, bound, isOver);
	for (let batch = 0; !isOver(); batch++) {
		if (batch >= batchesWithoutClock && work.secondsSpent() === 0) break;
		rest.improve(isOver);
		report();
	}
	best.restore();
	return { fewestSessions: rest.fewest };
}

/** From so many people on, a plan that uses any session is made first, since one with few takes long. */
const manyPeople = 12_000;

/** Effort for closing sessions before the plan is polished: some seconds. */
const effortForClosing = 2e7;

/** Effort for a better bound, in each turn: about as much as a turn of the others. */
const effortForBound = 3e6;

const batchesWithoutClock = 2;

/** Books into whatever is open, quickly. */
function bookAnywhere(board: Board, isOver: () => boolean): void {
	const everywhere = new Uint8Array(board.unitLane.length).fill(1);
	dispatch(board, everywhere, isOver);
	bookWaiting(board, undefined, everywhere, 0, isOver);
	board.forget();
}

function clear(board: Board): void {
	for (let person = 0; person < board.cellOf.length; person++) {
		if ((board.cellOf[person] as number) >= 0) board.remove(person);
	}
	board.forget();
}

function polish(board: Board, isOver: () => boolean): void {
	walkLess(board, isOver);
	startEarlier(board, isOver);
	board.forget();
}

/** What is done with the time that is left: from the best plan so far, in turn for people, sessions, walks and starts. */
class Rest {
	readonly #board: Board;
	readonly #random: RandomGenerator;
	readonly #shaker: Shaker;
	readonly #everywhere: Uint8Array;
	readonly #enough: number;
	readonly #space: ProofSpace;
	readonly #bound: SessionBound;
	/** No plan that books as many has fewer sessions. */
	fewest: number;
	/** A better bound, and for how many people booked it is made. */
	#finer: { readonly booked: number; readonly bound: FinerBound | undefined } | undefined;
	readonly #best: Best;
	/** Where the search for fewer sessions is; no worse than the best in people and sessions. */
	#wandering: Snapshot;
	#turn = 0;

	constructor(best: Best, space: ProofSpace, random: RandomGenerator, bound: SessionBound, isOver: () => boolean) {
		const { board } = best;
		this.#board = board;
		this.#random = random;
		this.#shaker = new Shaker(board, random);
		this.#everywhere = new Uint8Array(board.unitLane.length).fill(1);
		this.#space = space;
		this.#bound = bound;
		this.fewest = bound.fewest;
		this.#best = best;
		this.#wandering = best.snapshot;
		const waiting = waitingOn(board);
		this.#enough =
			waiting.length > 0 && space.instance === board.instance
				? leastLeftOut(space, limitsOf(board, waiting), isOver).withWindow
				: 0;
	}

	improve(isOver: () => boolean): void {
		const turn = this.#turn++;
		if (this.#best.reached.booked < this.#board.instance.people.length) this.#bookMore(turn, isOver);
		this.#boundMore(isOver);
		if (this.#best.reached.sessions > this.fewest) this.#closeMore(turn, isOver);
		this.#reorder(isOver);
	}

	#boundMore(isOver: () => boolean): void {
		const { booked, sessions } = this.#best.reached;
		if (sessions <= this.fewest || isOver()) return;
		if (this.#finer?.booked !== booked) {
			this.#finer = { booked, bound: FinerBound.of(this.#space, booked, this.#bound) };
		}
		this.fewest = Math.max(this.fewest, this.#finer.bound?.improve(sessions, effortForBound, isOver) ?? 0);
	}

	#bookMore(turn: number, isOver: () => boolean): void {
		const board = this.#board;
		this.#best.restore();
		const waiting = waitingOn(board);
		if (waiting.length <= this.#enough) return;
		const chains = new ChainSearch(board, this.#everywhere);
		const ejection = new Ejection(board, this.#everywhere, chains, this.#random);
		const rest = ejection.book(waiting, roundsForLast * Math.min(8, 1 + turn), this.#enough, isOver);
		if (rest.length === waiting.length) return;
		bookEarlierDue(board, isOver);
		polish(board, isOver);
		if (this.#best.keep()) this.#wandering = this.#best.snapshot;
	}

	#closeMore(turn: number, isOver: () => boolean): void {
		const board = this.#board;
		this.#wandering.restore(board);
		const rounds = turn % 4 === 3 ? 20 : 0;
		const steps = rounds === 0 ? 10 * stepsAt(board) : stepsAt(board);
		for (let step = 0; step < steps && board.sessionsUsed > this.fewest && !isOver(); step++) {
			if (!this.#shaker.shakeSessions(rounds, isOver)) continue;
			this.#wandering = new Snapshot(board);
			polish(board, isOver);
			this.#best.keep();
			this.#wandering.restore(board);
		}
		this.#wandering = new Snapshot(board);
	}

	#reorder(isOver: () => boolean): void {
		const board = this.#board;
		this.#best.restore();
		let now = this.#best.reached;
		for (let step = 0; step < stepsAt(board) && !isOver(); step++) {
			const before = board.moment;
			const isDone = this.#shaker.shakeOrder(isOver);
			const then = isDone ? reachedOn(board) : now;
			if (isDone && compareReached(then, now) >= 0) now = then;
			else board.undoTo(before);
			board.forget();
		}
		this.#best.keep();
	}
}

/** Steps of a batch: fewer where each costs more. */
function stepsAt(board: Board): number {
	return Math.max(4, Math.min(200, Math.ceil(40_000 / (board.instance.people.length + 1))));
}

/** Rounds without success after which the last people are given up. */
const roundsForLast = 600;

/**
 * Books as many people as it can, on a board as it is: dispatching into few sessions, then gaps, chains, pushing and letting others
 * go. Nobody who is booked loses the booking for good. Tells when there is a plan worth keeping: after each part that only adds bookings,
 * and before what could be for the worse in between; and whether some people are proven to be left. The dispatching goes on until
 * it is too late.
 */
export function bookAll(
	board: Board,
	space: ProofSpace,
	random: RandomGenerator,
	isOver: () => boolean,
	onStep: () => void = () => undefined,
	isTooLate: () => boolean = isOver
): { readonly isShort: boolean } {
	const few = chooseSessions(board, space);
	dispatch(board, few, isTooLate);
	onStep();
	const effort = effortForChains * board.instance.people.length;
	bookWaiting(board, new ChainSearch(board, few), few, effort, isOver);
	const everywhere = new Uint8Array(board.unitLane.length).fill(1);
	// Where many are left, lanes are better filled in the order of time than person by person.
	if (waitingOn(board).length > 0.01 * board.instance.people.length) dispatch(board, everywhere, isOver);
	const chains = new ChainSearch(board, everywhere);
	let waiting = bookWaiting(board, chains, everywhere, 2 * effort, isOver);
	onStep();
	if (isOver()) return { isShort: false };
	const isCut = board.instance.kinds.some(({ windows }) => windows.every((window) => window === null));
	if (waiting.length === 0) return { isShort: isCut };
	const left = leastLeftOut(space, limitsOf(board, waiting), isOver).withWindow;
	// Whom every plan leaves out need not be tried for; only where both readings of the document are one is that known here.
	const enough = space.instance === board.instance ? left : 0;
	for (let before = Infinity; waiting.length > enough && waiting.length < before && !isOver();) {
		before = waiting.length;
		onStep();
		favorShorter(board, chains, isOver);
		waiting = bookWaiting(board, chains, everywhere, 2 * effort, isOver);
	}
	if (waiting.length > enough) {
		new Ejection(board, everywhere, chains, random).book(waiting, roundsForLast, enough, isOver);
	}
	return { isShort: isCut || left > 0 };
}

/** Effort for chains, for each person of the puzzle. */
const effortForChains = 200;

/** Where there is no room for all: whoever takes longer gives way to somebody who takes less, straight or by a chain. */
function favorShorter(board: Board, chains: ChainSearch, isOver: () => boolean): void {
	const { kinds, kindOf, durations } = board.instance;
	const longest = durations.length - 1;
	const waiting = waitingOn(board).filter((person) => board.kindOf(person).duration < longest);
	waiting.sort((a, b) => board.kindOf(a).duration - board.kindOf(b).duration || a - b);
	const failed = new Set<number>();
	chains.revive();
	for (const person of waiting) {
		if (isOver()) return;
		const kind = kindOf[person] as number;
		if (failed.has(kind)) continue;
		const { duration } = board.kindOf(person);
		if (chains.replace(person, (other) => (kinds[other] as Kind).duration > duration) < 0) failed.add(kind);
	}
}

/** Books who is waiting into gaps, by pushing and by chains for so much effort, until nobody more finds room; who is left. */
function bookWaiting(
	board: Board,
	chains: ChainSearch | undefined,
	usable: Uint8Array,
	effort: number,
	isOver: () => boolean
): number[] {
	let waiting = waitingOn(board);
	let left = effort;
	for (let before = Infinity; waiting.length > 0 && waiting.length < before; waiting = waitingOn(board)) {
		before = waiting.length;
		chains?.revive();
		for (const person of waiting) {
			if (isOver()) return waitingOn(board);
			const gap = findGap(board, board.kindOf(person), 0, usable);
			if (gap) board.place(person, gap.lane, gap.cell);
			else if (!insertByPushing(board, person, usable) && left > 0) {
				const begin = board.effort;
				chains?.insert(person, left);
				left -= board.effort - begin;
			}
		}
	}
	return waiting;
}

/** Gives the place of somebody due later to somebody due earlier who is still waiting, straight or by a chain. */
function bookEarlierDue(board: Board, isOver: () => boolean): void {
	const waiting = waitingOn(board).sort((a, b) => board.kindOf(a).rank - board.kindOf(b).rank || a - b);
	if (waiting.length === 0 || board.instance.ranks < 2) return;
	const chains = new ChainSearch(board, new Uint8Array(board.unitLane.length).fill(1));
	const failed = new Set<number>();
	for (let person = waiting.shift(); person !== undefined && !isOver(); person = waiting.shift()) {
		const kind = board.instance.kindOf[person] as number;
		const { rank } = board.kindOf(person);
		if (failed.has(kind)) continue;
		const left = chains.replace(person, (other) => (board.instance.kinds[other] as { rank: number }).rank > rank);
		if (left < 0) failed.add(kind);
		else if (!chains.insert(left)) waiting.push(left);
	}
}

/** The away-limits that count for some people; only those can keep one of them out. */
function limitsOf(board: Board, people: readonly number[]): ReadonlySet<number> {
	return new Set(people.map((person) => board.kindOf(person).limit));
}

/** People who are not booked and have a window somewhere. */
export function waitingOn(board: Board): number[] {
	const { people } = board.instance;
	return [...people.keys()].filter(
		(person) => (board.cellOf[person] as number) < 0 && board.kindOf(person).windows.some((window) => window !== null)
	);
}
