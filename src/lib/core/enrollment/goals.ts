import type { Board, Lane } from './board';

/** What a board reaches, goal by goal; seconds of walking and of starts are sums over those booked. */
export interface Reached {
	readonly booked: number;
	/** People booked by due date, the earliest first. */
	readonly byRank: readonly number[];
	readonly sessions: number;
	readonly walked: number;
	readonly starts: number;
}

/** Reckons what a board reaches. Cost: the people. */
export function reachedOn(board: Board): Reached {
	const byRank = Array<number>(board.instance.ranks).fill(0);
	let walked = 0;
	let starts = 0;
	for (let person = 0; person < board.cellOf.length; person++) {
		const laneIndex = board.laneOf[person] as number;
		if (laneIndex < 0) continue;
		const { station, base } = board.lanes[laneIndex] as Lane;
		const kind = board.kindOf(person);
		byRank[kind.rank] = (byRank[kind.rank] as number) + 1;
		walked += kind.walks[station] as number;
		starts += board.instance.lattices[station]?.at[(board.cellOf[person] as number) - base] as number;
	}
	return { booked: board.booked, byRank, sessions: board.sessionsUsed, walked, starts };
}

/** Positive when the first reaches more than the second, goal after goal; negative when less. */
export function compareReached(a: Reached, b: Reached): number {
	if (a.booked !== b.booked) return a.booked - b.booked;
	for (const [rank, count] of a.byRank.entries()) {
		const other = b.byRank[rank] ?? 0;
		if (count !== other) return count - other;
	}
	if (a.sessions !== b.sessions) return b.sessions - a.sessions;
	if (a.walked !== b.walked) return b.walked - a.walked;
	return b.starts - a.starts;
}

/** A board as it stood at some moment. */
export class Snapshot {
	readonly reached: Reached;
	readonly #laneOf: Int32Array;
	readonly #cellOf: Int32Array;

	constructor(board: Board) {
		this.reached = reachedOn(board);
		this.#laneOf = board.laneOf.slice();
		this.#cellOf = board.cellOf.slice();
	}

	/** Puts a board of the same puzzle back as it was. What was done before is forgotten. */
	restore(board: Board): void {
		const moved: number[] = [];
		for (let person = 0; person < this.#cellOf.length; person++) {
			const isSame = board.laneOf[person] === this.#laneOf[person] && board.cellOf[person] === this.#cellOf[person];
			if (isSame) continue;
			if ((board.cellOf[person] as number) >= 0) board.remove(person);
			if ((this.#cellOf[person] as number) >= 0) moved.push(person);
		}
		for (const person of moved) board.place(person, this.#laneOf[person] as number, this.#cellOf[person] as number);
		board.forget();
	}
}

/** The best plan so far on a board. */
export class Best {
	readonly board: Board;
	snapshot: Snapshot;

	constructor(board: Board) {
		this.board = board;
		this.snapshot = new Snapshot(board);
	}

	get reached(): Reached {
		return this.snapshot.reached;
	}

	/** Keeps the board where it reaches more; true where it does. */
	keep(): boolean {
		if (this.board.booked < this.reached.booked) return false;
		if (compareReached(reachedOn(this.board), this.reached) <= 0) return false;
		this.snapshot = new Snapshot(this.board);
		return true;
	}

	/** Puts the board back as it was best. */
	restore(): void {
		this.snapshot.restore(this.board);
	}
}
