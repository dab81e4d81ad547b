/** How many requests may come at once, and how many more each second. */
export interface Allowance {
	readonly atOnce: number;
	readonly perSecond: number;
}

/** For a token that is known: a first synchronization of thousands of users takes minutes, not hours. */
export const usualAllowance: Allowance = { atOnce: 200, perSecond: 25 };

/** For requests without a valid token, all together: a guess in 2 to the power of 256 needs no more. */
export const strangerAllowance: Allowance = { atOnce: 30, perSecond: 1 };

interface Bucket {
	readonly left: number;
	/** Seconds. */
	readonly at: number;
}

const most = 1_000;

/** Counts requests by key: a bucket that fills up steadily and is emptied by requests. */
export class RateLimit {
	readonly #buckets = new Map<string, Bucket>();
	readonly #seconds: () => number;

	/** `seconds` is a clock that only goes forward. */
	constructor(seconds: () => number = () => performance.now() / 1000) {
		this.#seconds = seconds;
	}

	/** Takes one; 0 where it was there, else the whole seconds until it will be. */
	take(key: string, { atOnce, perSecond }: Allowance): number {
		const now = this.#seconds();
		const before = this.#buckets.get(key) ?? { left: atOnce, at: now };
		const left = Math.min(atOnce, before.left + (now - before.at) * perSecond);
		const isThere = left >= 1;
		this.#buckets.delete(key);
		this.#buckets.set(key, { left: isThere ? left - 1 : left, at: now });
		for (const oldest of this.#buckets.keys()) {
			if (this.#buckets.size <= most) break;
			this.#buckets.delete(oldest);
		}
		return isThere ? 0 : Math.max(1, Math.ceil((1 - left) / perSecond));
	}
}
