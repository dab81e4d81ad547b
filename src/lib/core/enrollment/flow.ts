/**
 * How much of what is asked for can be given at most, when everyone may take parts anywhere they are admitted: a maximum flow.
 *
 * Demands (kinds of people, in grid steps or minutes) on the left, supplies (pieces of time with a capacity) on the right; a demand
 * may draw on ranges of supplies, any amount each. What remains unmet is a proof: by the minimum cut, the demands
 * reached from an unmet one together ask for more than all that they may draw on. Dinic's method; arcs from demands to supplies
 * are unlimited and therefore not stored, only the amounts that flow. Cost: a few passes over the ranges.
 * @source E. A. Dinits (1970); L. R. Ford and D. R. Fulkerson (1956) for the cut
 */
export interface FlowProblem {
	readonly demands: readonly number[];
	/** Ranges of supplies for each demand: from, to (to excluded), from, to …; sorted and apart. */
	readonly ranges: readonly (readonly number[])[];
	readonly supplies: readonly number[];
}

export interface FlowResult {
	/** What no flow can meet. */
	readonly unmet: number;
	/** The demands of the minimum cut: together they ask for `unmet` more than their supplies hold. Empty when all are met. */
	readonly cut: readonly number[];
}

/** Finds the largest flow and its cut; undefined where time is over before, since half a flow proves nothing. */
export function largestFlow(problem: FlowProblem, isOver: () => boolean): FlowResult | undefined {
	const flow = new Flow(problem);
	while (flow.levels()) {
		if (isOver() || !flow.block(isOver)) return undefined;
	}
	return flow.result();
}

class Flow {
	readonly #ranges: FlowProblem['ranges'];
	readonly #unmet: number[];
	readonly #left: number[];
	/** Who draws on each supply, and how much. */
	readonly #drawers: number[][];
	readonly #amounts: number[][];
	readonly #demandLevel: Int32Array;
	readonly #supplyLevel: Int32Array;
	/** Where the search goes on: range and supply of each demand, drawer of each supply. */
	readonly #rangeAt: Int32Array;
	readonly #supplyAt: Int32Array;
	readonly #drawerAt: Int32Array;

	constructor({ demands, ranges, supplies }: FlowProblem) {
		this.#ranges = ranges;
		this.#unmet = [...demands];
		this.#left = [...supplies];
		this.#drawers = supplies.map(() => []);
		this.#amounts = supplies.map(() => []);
		this.#demandLevel = new Int32Array(demands.length);
		this.#supplyLevel = new Int32Array(supplies.length);
		this.#rangeAt = new Int32Array(demands.length);
		this.#supplyAt = new Int32Array(demands.length);
		this.#drawerAt = new Int32Array(supplies.length);
	}

	/** Levels by breadth from the unmet demands; true when a supply with something left is reached. */
	levels(): boolean {
		this.#demandLevel.fill(-1);
		this.#supplyLevel.fill(-1);
		const queue: number[] = [];
		this.#unmet.forEach((unmet, demand) => {
			if (unmet <= 0) return;
			this.#demandLevel[demand] = 0;
			queue.push(demand);
		});
		let isReached = false;
		for (let at = 0; at < queue.length; at++) {
			const demand = queue[at] as number;
			const level = this.#demandLevel[demand] as number;
			const ranges = this.#ranges[demand] as readonly number[];
			for (let range = 0; range < ranges.length; range += 2) {
				for (let supply = ranges[range] as number; supply < (ranges[range + 1] as number); supply++) {
					if (this.#supplyLevel[supply] !== -1) continue;
					this.#supplyLevel[supply] = level + 1;
					if ((this.#left[supply] as number) > 0) isReached = true;
					for (const [index, drawer] of (this.#drawers[supply] as number[]).entries()) {
						if (this.#demandLevel[drawer] !== -1 || (this.#amounts[supply] as number[])[index] === 0) continue;
						this.#demandLevel[drawer] = level + 2;
						queue.push(drawer);
					}
				}
			}
		}
		return isReached;
	}

	/** Sends all that the levels let through; false where time was over before. */
	block(isOver: () => boolean): boolean {
		this.#rangeAt.fill(0);
		this.#supplyAt.fill(-1);
		this.#drawerAt.fill(0);
		for (let demand = 0; demand < this.#unmet.length; demand++) {
			if (demand % 64 === 63 && isOver()) return false;
			while (this.#demandLevel[demand] === 0 && (this.#unmet[demand] as number) > 0) {
				const sent = this.#send(demand, this.#unmet[demand] as number);
				if (sent === 0) break;
				this.#unmet[demand] = (this.#unmet[demand] as number) - sent;
			}
		}
		return true;
	}

	/** Sends up to `most` from a demand further along the levels; the sum that found a supply. */
	#send(demand: number, most: number): number {
		const ranges = this.#ranges[demand] as readonly number[];
		const level = this.#demandLevel[demand] as number;
		for (; (this.#rangeAt[demand] as number) < ranges.length; this.#nextRange(demand)) {
			const range = this.#rangeAt[demand] as number;
			if (this.#supplyAt[demand] === -1) this.#supplyAt[demand] = ranges[range] as number;
			for (; (this.#supplyAt[demand] as number) < (ranges[range + 1] as number); this.#step(this.#supplyAt, demand)) {
				const supply = this.#supplyAt[demand] as number;
				if (this.#supplyLevel[supply] !== level + 1) continue;
				const sent = this.#sendThrough(supply, level + 1, most);
				if (sent > 0) {
					this.#draw(supply, demand, sent);
					return sent;
				}
			}
		}
		return 0;
	}

	#step(pointers: Int32Array, index: number): number {
		return (pointers[index] = (pointers[index] as number) + 1);
	}

	#nextRange(demand: number): number {
		this.#supplyAt[demand] = -1;
		return (this.#rangeAt[demand] = (this.#rangeAt[demand] as number) + 2);
	}

	#sendThrough(supply: number, level: number, most: number): number {
		const left = this.#left[supply] as number;
		if (left > 0) {
			const sent = Math.min(left, most);
			this.#left[supply] = left - sent;
			return sent;
		}
		const drawers = this.#drawers[supply] as number[];
		const amounts = this.#amounts[supply] as number[];
		for (; (this.#drawerAt[supply] as number) < drawers.length; this.#step(this.#drawerAt, supply)) {
			const index = this.#drawerAt[supply] as number;
			const drawer = drawers[index] as number;
			const amount = amounts[index] as number;
			if (amount === 0 || this.#demandLevel[drawer] !== level + 1) continue;
			const sent = this.#send(drawer, Math.min(amount, most));
			if (sent === 0) continue;
			amounts[index] = (amounts[index] as number) - sent;
			return sent;
		}
		return 0;
	}

	#draw(supply: number, demand: number, amount: number): void {
		const drawers = this.#drawers[supply] as number[];
		const amounts = this.#amounts[supply] as number[];
		const index = drawers.indexOf(demand);
		if (index >= 0) amounts[index] = (amounts[index] as number) + amount;
		else {
			drawers.push(demand);
			amounts.push(amount);
		}
	}

	/** What is left unmet after the last levels, and the demands that they reached. */
	result(): FlowResult {
		const unmet = this.#unmet.reduce((sum, one) => sum + one, 0);
		const cut = unmet > 0 ? [...this.#demandLevel.keys()].filter((demand) => this.#demandLevel[demand] !== -1) : [];
		return { unmet, cut };
	}
}
