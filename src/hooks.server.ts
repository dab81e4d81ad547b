import { randomUUID } from 'node:crypto';
import type { Handle, HandleServerError, ServerInit } from '@sveltejs/kit';
import { fault } from '$lib/core/kernel/fault';
import { startServer } from '$lib/server/start';

/** Runs before the first request: a database that cannot be used is told at the start. */
export const init: ServerInit = () => startServer();

const reading = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Whether a page of another site is behind the request. SvelteKit's own check looks at form content types only; this one
 * holds for every kind of request. Programs that are no browsers send neither header and pass.
 */
function isForeign(request: Request, ownOrigin: string): boolean {
	const origin = request.headers.get('origin');
	if (origin !== null && origin !== ownOrigin) return true;
	// Following a link from elsewhere is a reading request, and welcome.
	if (reading.has(request.method)) return false;
	const site = request.headers.get('sec-fetch-site');
	return site !== null && site !== 'same-origin' && site !== 'none';
}

/** Until there are accounts the acting name is taken on trust: it labels changes and grants nothing. */
function readActor(cookie: string | undefined): string {
	const name = (cookie ?? '').replace(/\p{Cc}/gu, '').trim();
	return name === '' ? 'site admin' : name.slice(0, 80);
}

const headers: Readonly<Record<string, string>> = {
	'x-content-type-options': 'nosniff',
	'x-frame-options': 'DENY',
	// Not `no-referrer`: under that, browsers send forms with the origin `null`, which is refused above.
	'referrer-policy': 'same-origin',
	'cross-origin-opener-policy': 'same-origin',
	'cross-origin-resource-policy': 'same-origin',
	'permissions-policy': 'camera=(), geolocation=(), microphone=()'
};

export const handle: Handle = async ({ event, resolve }) => {
	if (isForeign(event.request, event.url.origin)) {
		const found = event.request.headers.get('origin') ?? 'another site';
		const foreign = fault(['origin'], found, `a request from a page of ${event.url.origin}`);
		return Response.json({ faults: [foreign] }, { status: 403, headers });
	}
	event.locals.actor = readActor(event.cookies.get('doorwright-actor'));
	const response = await resolve(event);
	for (const [name, value] of Object.entries(headers)) response.headers.set(name, value);
	// Pages and answers are about people; a shared browser's cache is no place for them.
	if (!response.headers.has('cache-control')) response.headers.set('cache-control', 'no-store');
	return response;
};

export const handleError: HandleServerError = ({ error, event, status, message }) => {
	// What the visitor asked for does not exist or is too large: told as it is, and no failure of ours.
	if (status < 500) return { message };
	const id = randomUUID().slice(0, 8);
	const cause = error instanceof Error ? (error.stack ?? error.message) : String(error);
	process.stderr.write(`failure ${id} at ${event.request.method} ${event.url.pathname}\n${cause}\n`);
	return { message: 'Something went wrong on our side.', id };
};
