import type { RequestHandler } from '@sveltejs/kit';

/** The modules of the API by their address, `[rollout]` where a part varies. */
const modules = import.meta.glob<Partial<Record<string, RequestHandler>>>('/src/routes/api/**/+server.ts', {
	eager: true
});

/** Addresses of the API as their files say, and what each exports. */
export const routes = Object.entries(modules).map(([file, handlers]) => ({
	path: file.replace('/src/routes', '').replace('/+server.ts', ''),
	handlers
}));

export interface Called {
	readonly status: number;
	readonly headers: Headers;
	readonly text: string;
	/** The body as JSON; throws where it is none. */
	readonly json: unknown;
}

export interface CallOptions {
	readonly body?: BodyInit;
	readonly headers?: Readonly<Record<string, string>>;
	readonly actor?: string;
}

/** Calls the API as a request would: finds the address among the routes and hands the request to its handler. */
export async function call(method: string, address: string, options: CallOptions = {}): Promise<Called> {
	const response = await responseOf(method, address, options);
	const text = await response.text();
	return {
		status: response.status,
		headers: response.headers,
		text,
		get json() {
			return JSON.parse(text) as unknown;
		}
	};
}

/** As `call`, with the response itself. */
export async function responseOf(method: string, address: string, options: CallOptions = {}): Promise<Response> {
	const url = new URL(address, 'http://127.0.0.1');
	const found = routes
		.map(({ path, handlers }) => ({ params: paramsOf(path, url.pathname), handlers, isRest: path.includes('[...') }))
		.filter((one) => one.params !== undefined)
		.sort((a, b) => Number(a.isRest) - Number(b.isRest))[0];
	if (!found) throw new Error(`${address} is no address of the API`);
	const handler = found.handlers[method] ?? found.handlers['fallback'];
	if (!handler) throw new Error(`${address} has no answer to ${method}`);
	const sent = { method, body: options.body ?? null, headers: options.headers ?? {}, duplex: 'half' };
	const request = new Request(url, sent);
	const event = { request, url, params: found.params, locals: { actor: options.actor ?? 'Nora' } };
	return handler(event as unknown as Parameters<RequestHandler>[0]);
}

function paramsOf(path: string, pathname: string): Record<string, string> | undefined {
	const pattern = path
		.split('/')
		.map((part) =>
			part
				.replace(/\./g, '\\.')
				.replace(/^\[\\\.\\\.\\\.(\w+)\]$/, '(?<$1>.*)')
				.replace(/^\[(\w+)\]$/, '(?<$1>[^/]+)')
		)
		.join('/');
	const match = new RegExp(`^${pattern}$`).exec(pathname);
	if (!match) return undefined;
	return Object.fromEntries(Object.entries(match.groups ?? {}).map(([key, value]) => [key, decodeURIComponent(value)]));
}
