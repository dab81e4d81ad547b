/** What a document may name that is defined outside of it. */
export interface KnownOutside {
	/** Ids of the rule packs that `privacy.regimes` may list. */
	readonly regimes: Iterable<string>;
}

/** Nobody mends so many faults by hand, and millions would not fit into memory: after these, reading stops. */
export const mostFaults = 100_000;
