import { type Board, type Lane, free } from './board';
import { UnitView } from './pushing';
import { cellInPlaceOf, gapIn, someUnit } from './rooms';

/**
 * Making room by a chain of moves: somebody waiting takes the place of a person who takes the place of another …, and the last one
 * goes to free time.
 *
 * The idea: an augmenting path of a bipartite matching, searched in breadth over kinds instead of people: who is of one kind can go
 * to the same places, so each kind is looked at once. Where all bookings are one slot long and no away-limit binds, a search
 * that fails proves that nobody more can be booked from there (Berge's theorem); with longer bookings it is a strong
 * heuristic. Kinds from which a search failed are not searched again until the board has changed otherwise. Cost of a
 * search: at most the bookings seen by all kinds reached.
 * @source C. Berge, Two theorems in graph theory (1957), for the path; searching by kinds is our own
 */
export class ChainSearch {
	readonly #board: Board;
	readonly #usable: Uint8Array;
	/** Kinds known to lead nowhere. */
	readonly #dead: Uint8Array;
	readonly #seen: Uint8Array;
	/** Cells that the shortest booking holds at the end of a run. */
	readonly #least: number;
	#turn = 0;

	constructor(board: Board, usable: Uint8Array) {
		this.#board = board;
		this.#usable = usable;
		this.#dead = new Uint8Array(board.instance.kinds.length);
		this.#seen = new Uint8Array(board.instance.kinds.length);
		this.#least = board.instance.kinds.reduce((least, kind) => Math.min(least, board.leastCells(kind)), Infinity);
	}

	/**
	 * Books a person, moving others along a chain; false, and nothing changed, where no chain was found, or none with so much
	 * effort.
	 */
	insert(person: number, most = Infinity): boolean {
		const board = this.#board;
		if (this.#dead[board.instance.kindOf[person] as number] === 1) return false;
		const roomy = this.#roomyUnits();
		const end = board.effort + most;
		const nodes = this.#search(person, (nodes, index) => this.#finish(nodes, index, roomy), end);
		if (!nodes) return true;
		if (board.effort < end) for (const node of nodes) this.#dead[board.instance.kindOf[node.person] as number] = 1;
		return false;
	}

	/** Books a person by a chain at whose end somebody leaves who may; who left, or -1 where no chain was found. */
	replace(person: number, mayLeave: (kind: number) => boolean): number {
		let left = -1;
		const { kindOf } = this.#board.instance;
		this.#search(person, (nodes, index) => {
			const { person: last } = nodes[index] as Node;
			if (index === 0 || !mayLeave(kindOf[last] as number) || !this.#move(nodes, index, undefined)) return false;
			left = last;
			return true;
		});
		return left;
	}

	/** Forgets what led nowhere; called after changes that may have made new room. */
	revive(): void {
		this.#dead.fill(0);
	}

	/** Units that may be used and have room for the shortest booking: the only ones in which a chain can end. */
	#roomyUnits(): number[] {
		const board = this.#board;
		const roomy: number[] = [];
		const atEnd = this.#least;
		for (let unit = 0; unit < board.unitLane.length; unit++) {
			if ((board.freeIn[unit] as number) < atEnd || this.#usable[unit] === 0) continue;
			// Behind the unit's last cell a booking may need less than its length.
			const to = board.unitTo[unit] as number;
			let length = 0;
			for (let cell = board.unitFrom[unit] as number; cell < to; cell++) {
				length = board.cells[cell] === free ? length + 1 : 0;
				if (length < board.shortest && cell + 1 < to) continue;
				if (length >= Math.min(board.shortest, atEnd)) roomy.push(unit);
				break;
			}
		}
		return roomy;
	}

	/** Grows chains until one ends; undefined then, or all that was reached. */
	#search(
		person: number,
		ends: (nodes: readonly Node[], index: number) => boolean,
		most = Infinity
	): readonly Node[] | undefined {
		const start = this.#board.instance.kindOf[person] as number;
		this.#seen.fill(0);
		this.#seen[start] = 1;
		const nodes: Node[] = [{ person, cell: -1, lane: -1, parent: -1 }];
		if (ends(nodes, 0)) return undefined;
		for (let index = 0; index < nodes.length && this.#board.effort < most; index++) {
			if (this.#grow(nodes, index, ends)) return undefined;
		}
		return nodes;
	}

	/** Adds everybody whose place the person of a node could take; true when a chain ended with one of them. */
	#grow(nodes: Node[], index: number, ends: (nodes: readonly Node[], index: number) => boolean): boolean {
		const board = this.#board;
		const node = nodes[index] as Node;
		const kind = board.kindOf(node.person);
		const { cells, endOf, cellOf } = board;
		const { kindOf } = board.instance;
		return someUnit(board, kind, this.#turn++, (unit) => {
			if (this.#usable[unit] === 0) return false;
			const from = board.unitFrom[unit] as number;
			const to = board.unitTo[unit] as number;
			for (let cell = from; cell < to;) {
				const holder = cells[cell] as number;
				if (holder < 0) {
					cell++;
					continue;
				}
				const isOwn = (cellOf[holder] as number) >= from;
				cell = endOf[holder] as number;
				const held = kindOf[holder] as number;
				if (!isOwn || this.#seen[held] === 1 || this.#dead[held] === 1) continue;
				const own = cellInPlaceOf(board, kind, holder);
				if (own < 0) continue;
				this.#seen[held] = 1;
				nodes.push({ person: holder, cell: own, lane: board.unitLane[unit] as number, parent: index });
				if (ends(nodes, nodes.length - 1)) return true;
			}
			return false;
		});
	}

	/** Ends the chain at a node if its person can go to free time. */
	#finish(nodes: readonly Node[], index: number, roomy: readonly number[]): boolean {
		const board = this.#board;
		const kind = board.kindOf((nodes[index] as Node).person);
		board.effort += 1 + (roomy.length >>> 3);
		for (const unit of roomy) {
			const laneIndex = board.unitLane[unit] as number;
			const window = kind.windows[(board.lanes[laneIndex] as Lane).station];
			const run = board.unitRun[unit] as number;
			if (!window || window.first[run] === window.first[run + 1]) continue;
			// Units of the chain are about to change, so the free time must be elsewhere.
			if (index > 0 && isTouched(board, nodes, index, unit)) continue;
			const cell = gapIn(board, kind, unit);
			if (cell >= 0 && this.#move(nodes, index, { lane: laneIndex, cell })) return true;
		}
		return false;
	}

	/** Makes all moves of the chain that ends at a node, the last first; without a place to go, the last one is taken off. */
	#move(nodes: readonly Node[], index: number, gap: { lane: number; cell: number } | undefined): boolean {
		const board = this.#board;
		const before = board.moment;
		let target = gap;
		for (let at = index; at >= 0; at = (nodes[at] as Node).parent) {
			const node = nodes[at] as Node;
			if ((board.cellOf[node.person] as number) >= 0) board.remove(node.person);
			if (target && !board.fits(board.kindOf(node.person), target.lane, target.cell)) {
				board.undoTo(before);
				return false;
			}
			if (target) board.place(node.person, target.lane, target.cell);
			target = node;
		}
		return true;
	}
}

function isTouched(board: Board, nodes: readonly Node[], index: number, unit: number): boolean {
	for (let at = index; at > 0; at = (nodes[at] as Node).parent) {
		if (board.unitOf((nodes[at] as Node).person) === unit) return true;
	}
	return false;
}

interface Node {
	/** Who is to be placed: the one waiting, or one whose place was given away. */
	readonly person: number;
	/** The cell that the parent takes in this person's place, and its lane. */
	readonly cell: number;
	readonly lane: number;
	readonly parent: number;
}

/** Books a person by pushing others of one unit earlier or later; false, and nothing changed, where no unit gives way. */
export function insertByPushing(board: Board, person: number, usable: Uint8Array): boolean {
	const kind = board.kindOf(person);
	const least = board.leastCells(kind);
	return someUnit(board, kind, 0, (unit) => {
		if ((board.freeIn[unit] as number) < least || usable[unit] === 0) return false;
		const view = new UnitView(board, unit);
		for (let at = view.findInsertion(kind); at >= 0; at = view.findInsertion(kind, at + 1)) {
			if (view.insert(person, at, at)) return true;
		}
		return false;
	});
}
