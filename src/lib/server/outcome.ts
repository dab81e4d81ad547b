import type { Fault } from '../core/kernel/fault';
import type { Result } from '../core/kernel/result';

/** Why something asked of the server was refused: it is not there, it came too late, or it is wrong in itself. */
export type Reason = 'not-found' | 'conflict' | 'invalid';

/** A `Result` that also says what kind of refusal it is, so that it travels as the right HTTP status. */
export type Outcome<T> =
	| { readonly ok: true; readonly value: T }
	| { readonly ok: false; readonly why: Reason; readonly faults: readonly Fault[] };

/** A refusal for one reason or several. */
export function refuse(why: Reason, faults: Fault | readonly Fault[]): Outcome<never> {
	return { ok: false, why, faults: 'path' in faults ? [faults] : faults };
}

/** A result of the core as an outcome; what it refuses is wrong in itself unless `whyOf` says otherwise. */
export function outcomeOf<T>(
	result: Result<T>,
	whyOf: (faults: readonly Fault[]) => Reason = () => 'invalid'
): Outcome<T> {
	return result.ok ? result : { ok: false, why: whyOf(result.faults), faults: result.faults };
}
