/** A bound at some prices, and how it would change with each of them. */
export interface Priced {
	readonly value: number;
	readonly slope: ArrayLike<number>;
}

/**
 * Raises a bound that is concave in its prices, none of which may be below 0. Every value on the way is a true bound, so the best of
 * them is.
 * @source F. Barahona and R. Anbil, The volume algorithm (2000): steps along the mean of the slopes seen so far
 */
export class Ascent {
	/** The best prices so far, and what they give. */
	prices: readonly number[];
	value: number;
	readonly #valueAt: (prices: readonly number[]) => Priced;
	#mean: number[];
	#scale = 0.1;
	#misses = 0;

	constructor(valueAt: (prices: readonly number[]) => Priced, start: readonly number[], known = valueAt(start)) {
		this.#valueAt = valueAt;
		this.prices = start;
		this.value = known.value;
		this.#mean = Array.from(known.slope);
	}

	/** Climbs so many rounds, or until the bound comes to `target`. */
	climb(rounds: number, target: number, isOver: () => boolean): void {
		for (let round = 0; round < rounds && this.value < target && !isOver(); round++) {
			const { prices } = this;
			// A price of 0 that should fall stays where it is.
			const length = this.#mean.reduce((sum, one, at) => (one < 0 && prices[at] === 0 ? sum : sum + one * one), 0);
			if (length < 1e-12) return;
			this.#step(Math.min(target, this.value * 1.05 + 1) - this.value, length);
		}
	}

	#step(gain: number, length: number): void {
		const mean = this.#mean;
		const step = (this.#scale * gain) / length;
		const tried = this.prices.map((price, at) => Math.max(0, price + step * (mean[at] as number)));
		const { value, slope } = this.#valueAt(tried);
		let dot = 0;
		for (let at = 0; at < mean.length; at++) dot += (slope[at] as number) * (mean[at] as number);
		this.#mean = mean.map((one, at) => 0.9 * one + 0.1 * (slope[at] as number));
		if (value > this.value) {
			[this.value, this.prices] = [value, tried];
			// Still uphill at the end of the step: it may be longer.
			if (dot > 0) this.#scale = Math.min(2, this.#scale * 1.3);
			this.#misses = 0;
		} else if (++this.#misses >= 6) {
			this.#scale *= 0.66;
			this.#misses = 0;
		}
	}
}
