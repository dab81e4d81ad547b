import { type ActionFailure, type RequestEvent, error, fail, redirect } from '@sveltejs/kit';
import type { Fault } from '$lib/core/kernel/fault';
import { type OpenRollout, editRollout, needRollout } from '$lib/server/rollouts';
import type { Outcome, Reason } from '$lib/server/outcome';
import { faultsByField, typedIn } from './forms';

/** What a refused form comes back with: every fault, the faults by field, and what was typed. */
export interface Refused {
	/** Which form of the page it was. */
	readonly form: string;
	readonly faults: readonly Fault[];
	readonly byField: Readonly<Record<string, string>>;
	readonly typed: Readonly<Record<string, string>>;
}

const statuses: Readonly<Record<Reason, number>> = { 'not-found': 404, conflict: 409, invalid: 422 };

/** The rollout of the address; 404 with the nearest name where there is none. */
export function rolloutOf(params: { rollout: string }): OpenRollout {
	const open = needRollout(params.rollout);
	if (!open.ok) error(404, open.faults[0]?.message ?? 'There is no such rollout.');
	return open.value;
}

/**
 * Makes a change as a form asks for it. When it is refused, the form comes back with every fault at its field; when it is
 * done, the browser is sent to `then` (the page itself where left out), so that a reload does not repeat it.
 */
export function change(
	event: RequestEvent,
	form: FormData,
	edit: string,
	params: unknown,
	then?: string
): ActionFailure<Refused> {
	const id = String(event.params['rollout']);
	const outcome = editRollout(id, edit, params, event.locals.actor);
	if (!outcome.ok) return refusedForm(outcome, form, event.url);
	redirect(303, then ?? event.url.pathname + withoutAction(event.url));
}

/** A refused outcome as the answer of a form action. */
export function refusedForm(
	outcome: Extract<Outcome<unknown>, { ok: false }>,
	form: FormData,
	url: URL
): ActionFailure<Refused> {
	return fail(statuses[outcome.why], {
		form: formName(url),
		faults: outcome.faults,
		byField: faultsByField(outcome.faults),
		typed: typedIn(form)
	});
}

/** The name of the action in an address: `?/addDoor` is `addDoor`. */
function formName(url: URL): string {
	return [...url.searchParams.keys()].find((key) => key.startsWith('/'))?.slice(1) ?? 'default';
}

function withoutAction(url: URL): string {
	const kept = [...url.searchParams].filter(([key]) => !key.startsWith('/'));
	return kept.length === 0 ? '' : `?${new URLSearchParams(kept).toString()}`;
}
