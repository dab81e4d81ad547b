import { serveScim } from '../../src/lib/server/scim/serve';
import type { JsonObject } from '../../src/lib/core/roster/scim/scim-result';

/** What came back. */
export interface Answered {
	readonly status: number;
	readonly headers: Headers;
	readonly body: JsonObject;
}

/** The id of a resource. */
export function idOf(resource: JsonObject | undefined): string {
	const id = resource?.['id'];
	if (typeof id !== 'string') throw new Error('a resource without an id');
	return id;
}

/** How a request gets to the server. */
export type Send = (request: Request) => Promise<Response>;

/** Hands a request to the server part as its route does. */
export function sendDirectly(rollout: string): Send {
	return (request) => {
		const url = new URL(request.url);
		return serveScim(request, url, rollout, url.pathname.split('/').slice(5).join('/'));
	};
}

/** A small client, as an identity provider would have it. */
export class ScimClient {
	readonly #base: string;
	readonly #token: string;
	readonly #send: Send;

	constructor(base: string, token: string, send: Send = fetch) {
		this.#base = base;
		this.#token = token;
		this.#send = send;
	}

	async ask(
		method: string,
		path: string,
		body?: unknown,
		headers: Readonly<Record<string, string>> = {}
	): Promise<Answered> {
		const sent = {
			'content-type': 'application/scim+json',
			...(this.#token === '' ? {} : { authorization: `Bearer ${this.#token}` }),
			...headers
		};
		const request = new Request(this.#base + path, {
			method,
			headers: sent,
			...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) })
		});
		const response = await this.#send(request);
		const text = await response.text();
		return {
			status: response.status,
			headers: response.headers,
			body: text === '' ? {} : (JSON.parse(text) as JsonObject)
		};
	}

	patch(id: string, ...operations: readonly unknown[]): Promise<Answered> {
		const schemas = ['urn:ietf:params:scim:api:messages:2.0:PatchOp'];
		return this.ask('PATCH', `/Users/${id}`, { schemas, Operations: operations });
	}
}
