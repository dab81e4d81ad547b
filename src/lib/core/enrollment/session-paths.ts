import type { AwayTerms } from './away-terms';
import type { Kind } from './instance';
import type { Gap, ProofSpace } from './proof-space';

/**
 * What a session can be worth when whole bookings follow each other in it: the dearest chain of starts. Unlike a filling by amounts it
 * sees each start, so that starts can cost what being away costs then; it does not see that there is only one of somebody.
 * Cost of a round: the starts of all kinds in all gaps.
 */
export class SessionPaths {
	/** Starts of all gaps, in each by slot; those of slot s of a gap begin at first[s]. */
	readonly #gaps: readonly GapStarts[];
	readonly #away: AwayTerms;
	readonly #limits: number;
	readonly #limitOf: Int32Array;
	readonly worths: Float64Array;
	/** By gap: starts on the dearest chain, as places in its starts. */
	readonly #chains: Int32Array[];

	/** Undefined where there are more starts than a round may look at. */
	static of(space: ProofSpace, away: AwayTerms): SessionPaths | undefined {
		let count = 0;
		for (let kind = 0; kind < space.instance.kinds.length; kind++) {
			for (const { lo, hi } of space.usesOf(kind)) count += hi - lo + 1;
			if (count > mostStarts) return undefined;
		}
		return new SessionPaths(space, away);
	}

	private constructor(space: ProofSpace, away: AwayTerms) {
		const { instance } = space;
		this.#away = away;
		this.#limits = instance.limits.length;
		this.#limitOf = Int32Array.from(instance.kinds, ({ limit }) => limit);
		this.#gaps = startsOf(space, away);
		this.worths = new Float64Array(this.#gaps.length);
		this.#chains = this.#gaps.map(() => new Int32Array(0));
	}

	get starts(): number {
		return this.#gaps.reduce((sum, { kind }) => sum + kind.length, 0);
	}

	/** Finds the dearest chain of every gap; `priceOf`: by kind. */
	fill(priceOf: (kind: number) => number, costs: readonly Float64Array[]): void {
		const prices = Float64Array.from(this.#limitOf, (_, kind) => priceOf(kind));
		this.#gaps.forEach((starts, gap) => {
			const { first, kind, next, from, to } = starts;
			const slots = first.length - 1;
			const best = new Float64Array(slots + 1);
			const by = new Int32Array(slots).fill(-1);
			for (let slot = slots - 1; slot >= 0; slot--) {
				let most = best[slot + 1] as number;
				for (let at = first[slot] as number; at < (first[slot + 1] as number); at++) {
					const one = kind[at] as number;
					let worth = (prices[one] as number) + (best[next[at] as number] as number);
					const limit = this.#limitOf[one] as number;
					if (limit >= 0) {
						const cost = costs[limit] as Float64Array;
						worth -= (cost[to[at] as number] as number) - (cost[from[at] as number] as number);
					}
					if (worth > most) {
						most = worth;
						by[slot] = at;
					}
				}
				best[slot] = most;
			}
			this.worths[gap] = best[0] as number;
			const chain: number[] = [];
			for (let slot = 0; slot < slots;) {
				const at = by[slot] as number;
				if (at < 0) slot++;
				else {
					chain.push(at);
					slot = next[at] as number;
				}
			}
			this.#chains[gap] = Int32Array.from(chain);
		});
	}

	/** Visits the kinds of the chain of a gap, and counts those who are away for it, so many lanes alike. */
	visit(gap: number, lanes: number, away: readonly Float64Array[], visit: (kind: number) => void): void {
		const { kind, from, to } = this.#gaps[gap] as GapStarts;
		for (const at of this.#chains[gap] as Int32Array) {
			const one = kind[at] as number;
			visit(one);
			const limit = this.#limitOf[one] as number;
			if (limit < 0) continue;
			const own = away[limit] as Float64Array;
			for (let place = from[at] as number; place < (to[at] as number); place++) {
				own[place] = (own[place] as number) + lanes;
			}
		}
	}

	/** Counters for those who are away, by limit and instant. */
	nobodyAway(): Float64Array[] {
		return Array.from({ length: this.#limits }, () => new Float64Array(this.#away.instants.length));
	}
}

/** The starts in one gap, by slot from its first. */
interface GapStarts {
	readonly first: Int32Array;
	readonly kind: Int32Array;
	/** Slot from which the next may start. */
	readonly next: Int32Array;
	/** From and to which instant one is away, as places of `AwayTerms`. */
	readonly from: Int32Array;
	readonly to: Int32Array;
}

/** Starts that are looked at in a round. */
const mostStarts = 3e6;

function startsOf(space: ProofSpace, away: AwayTerms): GapStarts[] {
	const { instance } = space;
	const uses: { kind: number; lo: number; hi: number }[][] = space.gaps.map(() => []);
	instance.kinds.forEach((_, kind) => {
		for (const { gap, lo, hi } of space.usesOf(kind)) uses[gap]?.push({ kind, lo, hi });
	});
	return space.gaps.map((gap, index) => gapStarts(space, away, gap, uses[index] ?? []));
}

function gapStarts(
	{ instance }: ProofSpace,
	away: AwayTerms,
	gap: Gap,
	uses: readonly { readonly kind: number; readonly lo: number; readonly hi: number }[]
): GapStarts {
	const begin = uses.reduce((least, { lo }) => Math.min(least, lo), Infinity);
	const end = uses.reduce((most, { hi }) => Math.max(most, hi + 1), begin);
	const slots = uses.length === 0 ? 0 : end - begin;
	const first = new Int32Array(slots + 1);
	for (const { lo, hi } of uses) {
		for (let slot = lo; slot <= hi; slot++) first[slot - begin + 1] = (first[slot - begin + 1] as number) + 1;
	}
	for (let slot = 0; slot < slots; slot++) first[slot + 1] = (first[slot + 1] as number) + (first[slot] as number);
	const count = first[slots] as number;
	const filled = Int32Array.from(first);
	const [kinds, next, from, to] = [0, 0, 0, 0].map(() => new Int32Array(count)) as [
		Int32Array,
		Int32Array,
		Int32Array,
		Int32Array
	];
	const at = instance.lattices[gap.station]?.at ?? new Float64Array(0);
	for (const { kind, lo, hi } of uses) {
		const { duration, minutes, walks, limit } = instance.kinds[kind] as Kind;
		const follows = instance.next[gap.station]?.[duration] ?? new Int32Array(0);
		const walk = walks[gap.station] ?? 0;
		for (let slot = lo; slot <= hi; slot++) {
			const place = filled[slot - begin] as number;
			filled[slot - begin] = place + 1;
			kinds[place] = kind;
			next[place] = Math.min(slots, (follows[slot] as number) - begin);
			if (limit < 0) continue;
			from[place] = away.placeOf((at[slot] as number) - walk);
			to[place] = away.placeOf((at[slot] as number) + minutes * 60 + walk);
		}
	}
	return { first, kind: kinds, next, from, to };
}
