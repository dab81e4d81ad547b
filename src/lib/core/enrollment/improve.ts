import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { Work } from '../kernel/work';
import type { Board } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { dispatch } from './construct';
import { startEarlier } from './earlier-starts';
import { Ejection } from './eject';
import { SessionCloser } from './fewer-sessions';
import { walkLess } from './less-walking';
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
	const isOver = (): boolean => work.isCancelled() || work.secondsSpent() >= options.seconds;
	const random = xoroshiro128plus(options.seed | 0);
	const steps = 6;
	const report = (done: number): void =>
		work.report(done, steps, `${board.booked} booked, ${board.sessionsUsed} sessions`);
	bookAll(board, space, random, isOver);
	report(1);
	bookEarlierDue(board);
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
	walkLess(board, isOver);
	report(5);
	startEarlier(board, isOver);
	report(6);
	return { fewestSessions: bound.fewest };
}

/** Rounds without success after which the last people are given up. */
const roundsForLast = 600;

function bookAll(board: Board, space: ProofSpace, random: RandomGenerator, isOver: () => boolean): void {
	const everywhere = new Uint8Array(board.unitLane.length).fill(1);
	dispatch(board, everywhere);
	let waiting = waitingOn(board);
	const chains = new ChainSearch(board, everywhere);
	for (let round = 0; round < 3 && waiting.length > 0; round++) {
		const before = waiting.length;
		for (const person of waiting) {
			if (isOver()) return;
			const gap = findGap(board, board.kindOf(person), 0, everywhere);
			if (gap) board.place(person, gap.lane, gap.cell);
			else if (!chains.insert(person)) insertByPushing(board, person, everywhere);
		}
		waiting = waitingOn(board);
		if (waiting.length === before) break;
		chains.revive();
	}
	if (waiting.length === 0) return;
	// Whom every plan leaves out need not be tried for; only where both readings of the document are one is that known here.
	const enough = space.instance === board.instance ? leastLeftOut(space).withWindow : 0;
	if (waiting.length > enough)
		new Ejection(board, everywhere, chains, random).book(waiting, roundsForLast, enough, isOver);
}

/** Gives the place of somebody due later to somebody due earlier who is still waiting, straight or by a chain. */
function bookEarlierDue(board: Board): void {
	const waiting = waitingOn(board).sort((a, b) => board.kindOf(a).rank - board.kindOf(b).rank || a - b);
	if (waiting.length === 0 || board.instance.ranks < 2) return;
	const chains = new ChainSearch(board, new Uint8Array(board.unitLane.length).fill(1));
	const failed = new Set<number>();
	for (let person = waiting.shift(); person !== undefined; person = waiting.shift()) {
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
