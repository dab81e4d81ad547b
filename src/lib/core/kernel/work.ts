/**
 * How long work tells how far it is and hears that it should stop. Handed in from outside, so that the core itself
 * knows no clock: `secondsSpent` is the caller's clock, 0 at the start.
 */
export interface Work {
	/** Tells that `done` of `total` steps are finished, with an optional note for a person. */
	report(done: number, total: number, note?: string): void;
	/** True once somebody asked to stop; the work then ends with the best it has. */
	isCancelled(): boolean;
	/** Seconds since the work began, by the caller's clock. */
	secondsSpent(): number;
}

/** Work that nobody watches, never cancelled and without a clock. */
export const unwatched: Work = {
	report: () => undefined,
	isCancelled: () => false,
	secondsSpent: () => 0
};
