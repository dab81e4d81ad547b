import type { Work } from '../kernel/work';
import type { Board } from './board';
import { ChainSearch, insertByPushing } from './chains';
import { dispatch } from './construct';
import { findGap } from './rooms';

/** Fills a board with the best plan that it finds in time. */
export function improve(board: Board, { seconds }: { readonly seconds: number }, work: Work): void {
	const everywhere = (): boolean => true;
	const isOver = (): boolean => work.isCancelled() || work.secondsSpent() >= seconds;
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
