import type { Work } from '../kernel/work';
import type { Board } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { dispatch } from './construct';
import { SessionCloser } from './fewer-sessions';
import type { ProofSpace } from './proof-space';
import { findGap } from './rooms';
import { fewestSessions } from './session-bound';

/** Fills a board with the best plan that it finds in time; the least number of sessions that could do. */
export function improve(
	board: Board,
	space: ProofSpace,
	{ seconds }: { readonly seconds: number },
	work: Work
): { readonly fewestSessions: number } {
	const isOver = (): boolean => work.isCancelled() || work.secondsSpent() >= seconds;
	bookAll(board, isOver);
	board.forget();
	const fewest = (): number => fewestSessions(space, board.booked, board.sessionsUsed, isOver);
	let least = fewest();
	if (board.sessionsUsed > least) {
		new SessionCloser(board).closeAll(least, isOver);
		if (board.sessionsUsed > least) least = Math.max(least, fewest());
	}
	return { fewestSessions: least };
}

function bookAll(board: Board, isOver: () => boolean): void {
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
}

/** People who are not booked and have a window somewhere. */
export function waitingOn(board: Board): number[] {
	const { people } = board.instance;
	return [...people.keys()].filter(
		(person) => (board.cellOf[person] as number) < 0 && board.kindOf(person).windows.some((window) => window !== null)
	);
}
