import type { Rollout } from '../../core/document/schema';
import type { Fault } from '../../core/kernel/fault';

/** What a worker thread is started with. */
export interface Order {
	/** The question's name. */
	readonly answer: string;
	readonly params: unknown;
	readonly rollout: Rollout;
	/** Four bytes shared with the server: other than 0 asks the work to stop with the best that it has. */
	readonly stop: SharedArrayBuffer;
}

/** What a worker thread tells. */
export type Message =
	| { readonly kind: 'progress'; readonly done: number; readonly total: number; readonly note: string | null }
	| { readonly kind: 'answer'; readonly value: unknown }
	| { readonly kind: 'refusal'; readonly faults: readonly Fault[] };
