import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Draws from one seed; the same seed gives the same draws in the same order. */
export class Chance {
	readonly #random: ReturnType<typeof xoroshiro128plus>;
	#spare: number | undefined;

	/** `seed` is a whole number; what exceeds 32 bits is cut. */
	constructor(seed: number) {
		this.#random = xoroshiro128plus(seed | 0);
	}

	/** Uniform in [0, 1), in steps of 2^-32. */
	uniform(): number {
		return (this.#random.next() >>> 0) / 0x1_0000_0000;
	}

	/** True with the given probability; 0 and 1 draw nothing. */
	happens(probability: number): boolean {
		if (probability <= 0) return false;
		if (probability >= 1) return true;
		return this.uniform() < probability;
	}

	/** Standard normal, by pairs: Box and Muller, "A note on the generation of random normal deviates" (1958). */
	normal(): number {
		if (this.#spare !== undefined) {
			const spare = this.#spare;
			this.#spare = undefined;
			return spare;
		}
		const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()));
		const angle = 2 * Math.PI * this.uniform();
		this.#spare = radius * Math.sin(angle);
		return radius * Math.cos(angle);
	}

	/**
	 * Log-normal with the given mean and coefficient of variation (standard deviation over mean); the mean itself where the
	 * variation is 0. Station times are skewed to the right: common practice, no source.
	 */
	logNormal(mean: number, variation: number): number {
		if (variation <= 0 || mean <= 0) return mean;
		const variance = Math.log(1 + variation * variation);
		return mean * Math.exp(Math.sqrt(variance) * this.normal() - variance / 2);
	}
}
