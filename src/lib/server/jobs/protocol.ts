import type { Rollout } from '../../core/document/schema';
import type { Result } from '../../core/kernel/result';
import type { Patch } from './patch';

/** A question for a worker thread. */
export interface Order {
	/** Counts the orders of one thread; its messages name it. */
	readonly number: number;
	/** The question's name. */
	readonly answer: string;
	readonly params: unknown;
	/** Names the state of a rollout; the thread keeps the latest few, so that each is sent once. */
	readonly key: string;
	/** The rollout; or what makes it of one that the thread keeps; null when the thread keeps it already. */
	readonly rollout: Rollout | Change | null;
	/** Four bytes shared with the server: other than 0 asks the work to stop with the best that it has. */
	readonly stop: SharedArrayBuffer;
}

/** A state of a rollout by what changed from another that the thread keeps. */
export interface Change {
	readonly base: string;
	readonly patch: Patch;
}

/** What a worker thread tells of an order. */
export type Message =
	| {
			readonly kind: 'progress';
			readonly number: number;
			readonly done: number;
			readonly total: number;
			readonly note: string | null;
	  }
	| { readonly kind: 'result'; readonly number: number; readonly result: Result<unknown> }
	| { readonly kind: 'failure'; readonly number: number; readonly reason: string };

/** How many rollouts a thread keeps. Both sides count the same way, so that they agree on which these are. */
const mostKept = 4;

/** Notes that a rollout was used last, and forgets the one used longest ago when there are too many. */
export function keepLatest<T>(kept: Map<string, T>, key: string, value: T): void {
	kept.delete(key);
	kept.set(key, value);
	const [oldest] = kept.keys();
	if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
}
