/** A small seeded source of random numbers, so that the demo data are the same on every machine. */
export class Seeded {
	/** @param {number} seed a whole number */
	constructor(seed) {
		this.state = seed >>> 0;
	}

	/** The next number, from 0 up to but not including 1 (mulberry32, public domain). */
	next() {
		this.state = (this.state + 0x6d2b79f5) >>> 0;
		let mixed = this.state;
		mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
		mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
	}

	/**
	 * A whole number from `least` to `most`, both included.
	 * @param {number} least
	 * @param {number} most
	 */
	whole(least, most) {
		return least + Math.floor(this.next() * (most - least + 1));
	}

	/**
	 * One of a list that is not empty.
	 * @template T
	 * @param {readonly T[]} list
	 * @returns {T}
	 */
	pick(list) {
		return /** @type {T} */ (list[this.whole(0, list.length - 1)]);
	}

	/**
	 * True about `share` of the time.
	 * @param {number} share from 0 to 1
	 */
	chance(share) {
		return this.next() < share;
	}
}
