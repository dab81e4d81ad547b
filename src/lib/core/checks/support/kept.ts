/**
 * What checks keep from one state of a rollout for the next, so that a small change costs little. What is kept is only ever a
 * short cut: the findings are those of a check that begins from nothing, and a property test holds them to that.
 */
export class Kept {
	readonly #now = new Map<string, unknown>();
	readonly #before: ReadonlyMap<string, unknown>;

	/** Of the state after the one of `before`. */
	constructor(before?: Kept) {
		this.#before = before ? before.#now : new Map<string, unknown>();
	}

	/**
	 * What is kept under a name in this state: made when it is asked for the first time, from what was kept in the state before,
	 * where there was one. `make` must take over only what is still true.
	 */
	renew<T>(name: string, make: (before: T | undefined) => T): T {
		if (!this.#now.has(name)) this.#now.set(name, make(this.#before.get(name) as T | undefined));
		return this.#now.get(name) as T;
	}
}
