import { resourceTypes, schemas, serviceProviderConfig } from '../../core/roster/scim/discovery';
import { listResponse, searchOfBody, searchOfQuery } from '../../core/roster/scim/message';
import { type JsonObject, refusedWith } from '../../core/roster/scim/scim-result';
import { getRollout } from '../open-rollouts';
import { RateLimit, strangerAllowance, usualAllowance } from './rate';
import { receiveScim, scimRefusal, scimResponse } from './respond';
import { directorySettings, tokenOf } from './tokens';
import { type Asked, createUser, serveUser, searchDirectory } from './users';

const limit = new RateLimit();

/**
 * Answers a request of an identity provider. Everything needs the token of the rollout, also what tells what the server can do; a
 * rollout that is not there is told from one with another token to nobody.
 * @source RFC 7644, section 3.2 (methods), section 2 (authentication); RFC 6750, section 3; RFC 6585, section 4 (429)
 */
export async function serveScim(request: Request, url: URL, rollout: string, path: string): Promise<Response> {
	const bearer = /^Bearer +([\w~+/.-]+=*) *$/i.exec(request.headers.get('authorization') ?? '')?.[1];
	const open = getRollout(rollout);
	const token = bearer === undefined || !open ? undefined : tokenOf(rollout, bearer);
	const wait = token
		? limit.take(`${rollout} ${token.number} ${token.createdAt}`, usualAllowance)
		: limit.take('stranger', strangerAllowance);
	if (wait > 0) {
		const { error } = refusedWith(429, `Too many requests. Ask again in ${wait} ${wait === 1 ? 'second' : 'seconds'}.`);
		return scimRefusal(error, { 'retry-after': String(wait) });
	}
	if (!token || !open) {
		const challenge = `Bearer realm="doorwright"${bearer === undefined ? '' : ', error="invalid_token"'}`;
		const { error } = refusedWith(401, 'A valid bearer token of this rollout is needed.');
		return scimRefusal(error, { 'www-authenticate': challenge });
	}
	const { address } = directorySettings(rollout);
	const base = `${address ?? url.origin}/scim/v2/r/${encodeURIComponent(rollout)}`;
	return route(
		{ open, request, url, base, label: token.label },
		path.split('/').filter((part) => part !== '')
	);
}

async function route(asked: Asked, [root, id, ...more]: readonly string[]): Promise<Response> {
	const { request, base, url } = asked;
	const { method } = request;
	const isReading = method === 'GET' || method === 'HEAD';
	if (more.length > 0 || root === undefined) return notThere(url);
	if (root === 'Users' && id !== undefined && id !== '.search') return serveUser(asked, id);
	if (root === 'Users' && id === undefined) {
		if (isReading) return searchDirectory(asked, searchOfQuery(url.searchParams));
		return method === 'POST' ? createUser(asked) : notTaken(method, 'GET, POST');
	}
	if ((root === 'Users' && id === '.search') || (root === '.search' && id === undefined)) {
		if (method !== 'POST') return notTaken(method, 'POST');
		const body = await receiveScim(request);
		return body.ok ? searchDirectory(asked, searchOfBody(body.value)) : scimRefusal(body.error);
	}
	if (root === 'Bulk' || root === 'Me') return scimRefusal(refusedWith(501, `${root} is not supported.`).error);
	const known = {
		ServiceProviderConfig: [serviceProviderConfig(base)],
		ResourceTypes: resourceTypes(base),
		Schemas: schemas(base)
	};
	const list = Object.hasOwn(known, root) ? known[root as keyof typeof known] : undefined;
	if (!list) return notThere(url);
	if (!isReading) return notTaken(method, 'GET');
	// Lists of what the server can do are never filtered. @source RFC 7644, section 4
	if (url.searchParams.has('filter')) {
		return scimRefusal(refusedWith(403, `${root} cannot be filtered.`).error);
	}
	return discovered(root, list, id, url);
}

function discovered(root: string, list: readonly JsonObject[], id: string | undefined, url: URL): Response {
	const [first] = list;
	if (root === 'ServiceProviderConfig') return first && id === undefined ? scimResponse(first) : notThere(url);
	if (id === undefined) return scimResponse(listResponse(list));
	const one = list.find((entry) => entry['id'] === id);
	return one ? scimResponse(one) : notThere(url);
}

function notThere(url: URL): Response {
	return scimRefusal(refusedWith(404, `There is nothing at ${url.pathname}.`).error);
}

function notTaken(method: string, allow: string): Response {
	return scimRefusal(refusedWith(405, `${method} is not taken here; ${allow} is.`).error, { allow });
}
