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
import { walkLess } from './less-walking';
import type { Kind } from './instance';
import type { ProofSpace } from './proof-space';
import { leastLeftOut } from './prove';
import { findGap } from './rooms';
import { boundSessions } from './session-bound';

/**
 * Fills a board with the best plan that it finds in time, goal after goal: people, people who are due earlier, sessions, minutes
 * walked, starts. Each step keeps what those before it reached. Ends by itself, so that the same seed gives the same plan whenever
 * there is time to finish.
 */
export function improve(
	board: Board,
	space: ProofSpace,
	options: { readonly seconds: number; readonly seed: number },
	work: Work
): { readonly fewestSessions: number } {
	const isOver = (): boolean => isSpent(shares.all);
	const isSpent = (share: number): boolean => work.isCancelled() || work.secondsSpent() >= share * options.seconds;
	const random = xoroshiro128plus(options.seed | 0);
	const steps = 6;
	const report = (done: number): void =>
		work.report(done, steps, `${board.booked} booked, ${board.sessionsUsed} sessions`);
	bookAll(board, space, random, () => isSpent(shares.people));
	report(1);
	bookEarlierDue(board, () => isSpent(shares.sessions));
	board.forget();
	report(2);
	const bound = boundSessions(space, board.booked, board.sessionsUsed, isOver);
	report(3);
	if (board.sessionsUsed > bound.fewest) {
		new SessionCloser(board, bound, random).closeAll(
			bound.fewest,
			options.seconds > 10 ? [40, 200, 600] : [40],
			isOver
		);
	}
	report(4);
	walkLess(board, () => isSpent(shares.walks));
	report(5);
	startEarlier(board, isOver);
	report(6);
	return { fewestSessions: bound.fewest };
}

/** Until which share of the time each goal may be worked on; what is left is for judging and proving. */
const shares = { people: 0.5, sessions: 0.65, walks: 0.7, all: 0.8 };

/** Rounds without success after which the last people are given up. */
const roundsForLast = 600;

function bookAll(board: Board, space: ProofSpace, random: RandomGenerator, isOver: () => boolean): void {
	const few = chooseSessions(board, space);
	dispatch(board, few);
	bookWaiting(board, new ChainSearch(board, few), few, isOver);
	const everywhere = new Uint8Array(board.unitLane.length).fill(1);
	const chains = new ChainSearch(board, everywhere);
	let waiting = bookWaiting(board, chains, everywhere, isOver);
	if (waiting.length === 0) return;
	// Whom every plan leaves out need not be tried for; only where both readings of the document are one is that known here.
	const enough = space.instance === board.instance ? leastLeftOut(space).withWindow : 0;
	for (let before = Infinity; waiting.length > enough && waiting.length < before && !isOver();) {
		before = waiting.length;
		favorShorter(board, chains, isOver);
		waiting = bookWaiting(board, chains, everywhere, isOver);
	}
	if (waiting.length > enough) {
		new Ejection(board, everywhere, chains, random).book(waiting, roundsForLast, enough, isOver);
	}
}

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

/** Books who is waiting into gaps, by chains and by pushing, until nobody more finds room; who is left. */
function bookWaiting(board: Board, chains: ChainSearch, usable: Uint8Array, isOver: () => boolean): number[] {
	let waiting = waitingOn(board);
	for (let before = Infinity; waiting.length > 0 && waiting.length < before; waiting = waitingOn(board)) {
		before = waiting.length;
		chains.revive();
		for (const person of waiting) {
			if (isOver()) return waitingOn(board);
			const gap = findGap(board, board.kindOf(person), 0, usable);
			if (gap) board.place(person, gap.lane, gap.cell);
			else if (!chains.insert(person)) insertByPushing(board, person, usable);
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

/** People who are not booked and have a window somewhere. */
export function waitingOn(board: Board): number[] {
	const { people } = board.instance;
	return [...people.keys()].filter(
		(person) => (board.cellOf[person] as number) < 0 && board.kindOf(person).windows.some((window) => window !== null)
	);
}
