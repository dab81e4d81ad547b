import { bitsOf } from './exact-bins';

/** Something that can hold a set of people at the cost that its table says (by set, Infinity where it cannot), some of them alike. */
export interface Part {
	readonly table: Float64Array;
	readonly copies: number;
}

/** A share of a set: what one copy of a part holds. */
export interface Share {
	readonly part: number;
	readonly copy: number;
	readonly set: number;
}

/** The cheapest ways to hold sets in several parts. */
export interface Joint {
	/** By set; Infinity where the set cannot be held. */
	readonly cost: Float64Array;
	/** Who is where for a set that can be held. */
	sharesOf(set: number): Share[];
}

/**
 * Joins parts: the least cost of every set of people over all ways to share it out, no part (copy) holding more than one share.
 *
 * Of all that could hold a share of k of n people, only the n - k + 1 cheapest are looked at: the others hold n - k at most, so one of
 * these is left, and no dearer. So the cost hardly hangs on the number of parts: pairs of a set and one apart from it, times n.
 */
export function join(parts: readonly Part[], people: number): Joint {
	const size = 2 ** people;
	const stages = stagesOf(parts, people);
	let cost = new Float64Array(size).fill(Infinity);
	cost[0] = 0;
	const choices: Int32Array[] = [];
	for (const { part, sets } of stages) {
		const { table } = parts[part] as Part;
		const joined = cost.slice();
		const choice = new Int32Array(size);
		for (const set of sets) {
			const own = table[set] as number;
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
		choices.push(choice);
	}
	return {
		cost,
		sharesOf(set) {
			const shares: Share[] = [];
			let left = set;
			for (let at = stages.length - 1; at >= 0 && left !== 0; at--) {
				const own = (choices[at] as Int32Array)[left] as number;
				if (own === 0) continue;
				const { part, copy } = stages[at] as Stage;
				shares.push({ part, copy, set: own });
				left ^= own;
			}
			return shares;
		}
	};
}

/** A copy of a part, and the sets for which it is among the cheapest. */
interface Stage {
	readonly part: number;
	readonly copy: number;
	readonly sets: readonly number[];
}

function stagesOf(parts: readonly Part[], people: number): Stage[] {
	const size = 2 ** people;
	const kept: number[][][] = parts.map(() => []);
	const values = new Float64Array(people + 1);
	const owners = new Int32Array(people + 1);
	for (let set = 1; set < size; set++) {
		const most = people - bitsOf(set) + 1;
		let count = 0;
		parts.forEach(({ table, copies }, part) => {
			const value = table[set] as number;
			if (value === Infinity) return;
			for (let copy = 0; copy < copies; copy++) {
				let at = count < most ? count : most - 1;
				if (count === most && (values[at] as number) <= value) break;
				for (; at > 0 && (values[at - 1] as number) > value; at--) {
					values[at] = values[at - 1] as number;
					owners[at] = owners[at - 1] as number;
				}
				values[at] = value;
				owners[at] = part;
				if (count < most) count++;
			}
		});
		for (let at = 0; at < count; at++) {
			const own = kept[owners[at] as number] as number[][];
			// Copies of a part stand side by side, since all have the same value.
			const copy = at > 0 && owners[at - 1] === owners[at] ? copyOf(owners, at) : 0;
			(own[copy] ??= []).push(set);
		}
	}
	return kept.flatMap((own, part) => own.map((sets, copy) => ({ part, copy, sets })));
}

function copyOf(owners: Int32Array, at: number): number {
	let copy = 0;
	while (at - copy > 0 && owners[at - copy - 1] === owners[at]) copy++;
	return copy;
}
