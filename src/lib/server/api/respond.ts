import { type Fault, fault } from '../../core/kernel/fault';
import type { Answered } from '../answers';
import type { Outcome, Reason } from '../outcome';

/**
 * How the API answers: a value as JSON, or `{ "faults": [ Fault ] }` with the status that tells what kind of refusal it is.
 * @source RFC 9110, section 15.5 (400, 404, 405, 409, 412, 413, 415, 422)
 */
const statuses: Readonly<Record<Reason, number>> = { 'not-found': 404, conflict: 409, invalid: 422 };

/** A refusal. */
export function refusal(
	status: number,
	faults: readonly Fault[],
	headers: Readonly<Record<string, string>> = {}
): Response {
	return Response.json({ faults }, { status, headers });
}

/** What was refused, with the status of its kind. */
export function refusalOf(outcome: Extract<Outcome<unknown>, { ok: false }>): Response {
	const isStale = outcome.faults.some((one) => one.path === '$.ifRevision');
	return refusal(isStale ? 412 : statuses[outcome.why], outcome.faults);
}

/** An outcome: the value as JSON, or the refusal. */
export function respond<T>(
	outcome: Outcome<T>,
	shape: (value: T) => unknown = (value) => value,
	status = 200
): Response {
	return outcome.ok ? Response.json(shape(outcome.value), { status }) : refusalOf(outcome);
}

/** The answer to a question, in pieces where it is long; or the refusal. */
export function respondAnswer(outcome: Outcome<Answered>): Response {
	if (!outcome.ok) return refusalOf(outcome);
	const pieces = outcome.value.json[Symbol.iterator]();
	const encoder = new TextEncoder();
	const body = new ReadableStream<Uint8Array>({
		pull(controller) {
			const piece = pieces.next();
			if (piece.done === true) controller.close();
			else controller.enqueue(encoder.encode(piece.value));
		}
	});
	return new Response(body, { headers: { 'content-type': 'application/json' } });
}

/** For a handler's `fallback`: the methods that an address takes, for any other. */
export function onlyTakes(...methods: readonly string[]): (event: { readonly request: Request }) => Response {
	const allow = methods.join(', ');
	return ({ request }) => refusal(405, [fault(['method'], request.method, `one of the methods ${allow}`)], { allow });
}
