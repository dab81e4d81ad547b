import type { Board } from './board';
import { type Admits, type Bin, type BinPlan, type CostScale, binPlans, binsOf, costScale } from './exact-bins';

/**
 * The best plan there is for a few people, in all five goals at once.
 *
 * The idea: for each bin the best way to book every set of people is known (`exact-bins`); bins are joined one after the other,
 * keeping for each set of people the cheapest way to book it in the bins so far. In the end the sets are compared goal
 * by goal. Away-limits bind bins together: a plan that breaks one is set aside, and the question is split by who of those away at
 * that minute is not (`exact-limits`). Cost: for each bin, pairs of a set that fits in it and a set apart from it.
 */
export interface ExactPlan {
	readonly bookings: readonly { readonly person: number; readonly lane: number; readonly slot: number }[];
	readonly goal: Goal;
	/** Fewest further sessions in which as many people can be booked, whoever they are. */
	readonly fewestSessions: number;
}

/** What a plan reaches, to be compared goal by goal: people by due date after their number, then the cost. */
export interface Goal {
	readonly booked: number;
	readonly byRank: readonly number[];
	readonly cost: number;
}

/** True when the first reaches more than the second. */
export function isBetter(a: Goal, b: Goal): boolean {
	if (a.booked !== b.booked) return a.booked > b.booked;
	for (const [rank, count] of a.byRank.entries()) {
		const other = b.byRank[rank] ?? 0;
		if (count !== other) return count > other;
	}
	return a.cost < b.cost;
}

/** The most pairs of sets that one answer may cost. */
const mostPairs = 6e7;

/** Joins bins into best plans; made once for a puzzle, asked once for each way to split it. */
export class ExactSearch {
	readonly #board: Board;
	readonly #people: readonly number[];
	readonly #bins: readonly Bin[];
	readonly #scale: CostScale;
	readonly #plain = new Map<Bin, Map<number, BinPlan[]>>();
	/** Pairs of sets that one answer costs. */
	pairs = 0;

	private constructor(board: Board, people: readonly number[], bins: readonly Bin[], scale: CostScale) {
		this.#board = board;
		this.#people = people;
		this.#bins = bins;
		this.#scale = scale;
	}

	/** A search on a board on which nobody is booked yet; undefined where the puzzle is too large or not plain. */
	static for(board: Board, people: readonly number[]): ExactSearch | undefined {
		const { instance } = board;
		if (people.length > 16) return undefined;
		const takesNothing = people.some(
			(person) =>
				board.kindOf(person).minutes === 0 && instance.lattices.some(({ ready }) => ready.station.turnoverMinutes === 0)
		);
		const scale = costScale(instance, people.length);
		const bins = scale && !takesNothing ? binsOf(board, people) : undefined;
		if (!scale || !bins) return undefined;
		// Of bins that look alike no more can be of use than there are people, and the earliest serve best.
		const seen = new Map<string, number>();
		const useful = bins.filter(({ likeness }) => {
			seen.set(likeness, (seen.get(likeness) ?? 0) + 1);
			return (seen.get(likeness) as number) <= people.length;
		});
		const search = new ExactSearch(board, people, useful, scale);
		search.pairs = search.#countPairs();
		return search.pairs <= mostPairs ? search : undefined;
	}

	#plansOf(bin: Bin, admits: Admits | undefined): Map<number, BinPlan[]> {
		if (admits) return binPlans(this.#board, bin, this.#people, this.#scale, admits);
		let plans = this.#plain.get(bin);
		if (!plans) {
			plans = binPlans(this.#board, bin, this.#people, this.#scale, () => true);
			this.#plain.set(bin, plans);
		}
		return plans;
	}

	#countPairs(): number {
		let pairs = 0;
		for (const bin of this.#bins) {
			for (const set of this.#plansOf(bin, undefined).keys()) pairs += 2 ** (this.#people.length - bitsOf(set));
			if (pairs > mostPairs) return pairs;
		}
		return pairs;
	}

	/** The best plan in which everybody starts only where `admits` allows; away-limits are not asked. */
	best(admits?: Admits): ExactPlan {
		const size = 2 ** this.#people.length;
		let cost = new Float64Array(size).fill(Infinity);
		cost[0] = 0;
		const chosen: Int32Array[] = [];
		const plansByBin = this.#bins.map((bin) => this.#plansOf(bin, admits));
		for (const plans of plansByBin) {
			const joined = cost.slice();
			const choice = new Int32Array(size);
			for (const [set, ways] of plans) {
				const own = ways.reduce((least, way) => Math.min(least, way.cost), Infinity);
				const others = size - 1 - set;
				for (let rest = others; ; rest = (rest - 1) & others) {
					const total = (cost[rest] as number) + own;
					if (total < (joined[rest | set] as number)) {
						joined[rest | set] = total;
						choice[rest | set] = set;
					}
					if (rest === 0) break;
				}
			}
			cost = joined;
			chosen.push(choice);
		}
		let best = 0;
		let goal = this.#goalOf(0, 0);
		for (let set = 1; set < size; set++) {
			if (cost[set] === Infinity || bitsOf(set) < goal.booked) continue;
			const other = this.#goalOf(set, cost[set] as number);
			if (isBetter(other, goal)) [best, goal] = [set, other];
		}
		let fewest = Infinity;
		for (let set = 0; set < size; set++) {
			if (bitsOf(set) === goal.booked)
				fewest = Math.min(fewest, Math.floor((cost[set] as number) / this.#scale.session));
		}
		return { goal, bookings: this.#bookingsOf(best, chosen, plansByBin), fewestSessions: fewest };
	}

	#goalOf(set: number, cost: number): Goal {
		const byRank = Array<number>(this.#board.instance.ranks).fill(0);
		this.#people.forEach((person, index) => {
			if (((set >>> index) & 1) === 0) return;
			const { rank } = this.#board.kindOf(person);
			byRank[rank] = (byRank[rank] as number) + 1;
		});
		return { booked: bitsOf(set), byRank, cost };
	}

	#bookingsOf(
		best: number,
		chosen: readonly Int32Array[],
		plansByBin: readonly Map<number, BinPlan[]>[]
	): ExactPlan['bookings'] {
		const bookings: { person: number; lane: number; slot: number }[] = [];
		let set = best;
		for (let index = this.#bins.length - 1; index >= 0; index--) {
			const own = chosen[index]?.[set] ?? 0;
			if (own === 0) continue;
			const ways = plansByBin[index]?.get(own) ?? [];
			let way: BinPlan | undefined = ways.reduce((least, one) => (one.cost < least.cost ? one : least));
			for (; way && way.person >= 0; way = way.before) {
				bookings.push({
					person: this.#people[way.person] as number,
					lane: (this.#bins[index] as Bin).lane,
					slot: way.slot
				});
			}
			set &= ~own;
		}
		return bookings;
	}
}

function bitsOf(set: number): number {
	let bits = 0;
	for (let rest = set; rest !== 0; rest &= rest - 1) bits++;
	return bits;
}
