import type { Fault } from './fault';

/** Either a value, or every fault that stood in its way (never an empty list). */
export type Result<T> =
	{ readonly ok: true; readonly value: T } | { readonly ok: false; readonly faults: readonly Fault[] };

/** A result that holds a value. */
export function ok<T>(value: T): Result<T> {
	return { ok: true, value };
}

/** A result that holds faults; throws when there is none, since a refusal without a reason is a bug. */
export function refused<T = never>(faults: readonly Fault[]): Result<T> {
	if (faults.length === 0) throw new Error('refused() needs at least one fault');
	return { ok: false, faults };
}
