import { isSameJson } from '../../core/document/canonical';
import { type Search, listResponse } from '../../core/roster/scim/message';
import { patchUser } from '../../core/roster/scim/patch-user';
import { project, readWanted } from '../../core/roster/scim/project';
import { readUser } from '../../core/roster/scim/read-user';
import { type Json, type JsonObject, type ScimResult, refusedWith } from '../../core/roster/scim/scim-result';
import { searchUsers } from '../../core/roster/scim/search';
import type { OpenRollout } from '../open-rollouts';
import { store } from '../store/current';
import type { DirectoryUser } from '../store/directory-repository';
import { addUser, changeUser, directoryOf, etagOf, removeUser, resourceOf } from './directory';
import { receiveScim, scimRefusal, scimResponse } from './respond';
import { applyAtOnce } from './takeover';

/** A request whose token was found good. */
export interface Asked {
	readonly open: OpenRollout;
	readonly request: Request;
	readonly url: URL;
	/** The address of this service as the client knows it. */
	readonly base: string;
	/** Whose token it is. */
	readonly label: string;
}

/** @source RFC 7644, sections 3.4.2 and 3.4.3 */
export function searchDirectory({ open, base }: Asked, search: ScimResult<Search>): Response {
	if (!search.ok) return scimRefusal(search.error);
	const wanted = readWanted(search.value.attributes, search.value.excludedAttributes);
	if (!wanted.ok) return scimRefusal(wanted.error);
	const users = directoryOf(open.id).filter(({ user }) => user !== null);
	const found = searchUsers(
		users.map((user) => resourceOf(user, base)),
		search.value
	);
	if (!found.ok) return scimRefusal(found.error);
	const { page, total, startIndex } = found.value;
	return scimResponse(
		listResponse(
			page.map((user) => project(user, wanted.value)),
			total,
			startIndex
		)
	);
}

/** @source RFC 7644, section 3.3 */
export async function createUser(asked: Asked): Promise<Response> {
	const body = await receiveScim(asked.request);
	const user = body.ok ? readUser(body.value) : body;
	if (!user.ok) return scimRefusal(user.error);
	const added = store().inTransaction(() => addUser(asked.open, user.value));
	if (!added.ok) return scimRefusal(added.error);
	applyAtOnce(asked.open.id, added.value.person, asked.label);
	return shown(asked, added.value, 201);
}

/** One user: read, replaced, patched, deleted. @source RFC 7644, sections 3.4.1, 3.5 and 3.6; conditions: section 3.14 */
export async function serveUser(asked: Asked, id: string): Promise<Response> {
	const { method, headers } = asked.request;
	const find = (): DirectoryUser | undefined => {
		const found = store().directory.find(asked.open.id, id);
		return found?.user === null ? undefined : found;
	};
	const before = find();
	if (!before) return scimRefusal(refusedWith(404, `There is no user ${id}.`).error);
	if (method === 'GET' || method === 'HEAD') {
		if (names(headers.get('if-none-match'), before.version)) {
			return new Response(null, { status: 304, headers: { etag: etagOf(before.version) } });
		}
		return shown(asked, before);
	}
	if (method !== 'PUT' && method !== 'PATCH' && method !== 'DELETE') {
		const allow = 'GET, PUT, PATCH, DELETE';
		return scimRefusal(refusedWith(405, `${method} is not taken here; ${allow} are.`).error, { allow });
	}
	const body = method === 'DELETE' ? undefined : await receiveScim(asked.request);
	if (body && !body.ok) return scimRefusal(body.error);
	const done = store().inTransaction(() => {
		// Read again: something else may have come while the body was received.
		const now = find();
		if (!now) return refusedWith(404, `There is no user ${id}.`);
		const seen = headers.get('if-match');
		if (seen !== null && !names(seen, now.version)) {
			return refusedWith(412, `The user has the version ${etagOf(now.version)} by now.`);
		}
		return changed(asked.open, now, method, body?.value);
	});
	if (!done.ok) return scimRefusal(done.error);
	applyAtOnce(asked.open.id, done.value.person, asked.label);
	return method === 'DELETE' ? new Response(null, { status: 204 }) : shown(asked, done.value);
}

function changed(
	open: OpenRollout,
	before: DirectoryUser,
	method: 'PUT' | 'PATCH' | 'DELETE',
	body: Json | undefined
): ScimResult<DirectoryUser> {
	if (method === 'DELETE') return { ok: true, value: removeUser(open, before) };
	const user = before.user ?? {};
	const after: ScimResult<JsonObject> = method === 'PUT' ? readUser(body ?? null) : patchUser(user, body ?? null);
	if (!after.ok) return after;
	// Nothing changed: the version stays, so that no other client is refused for it.
	if (isSameJson(after.value, user)) return { ok: true, value: before };
	return changeUser(open, before, after.value);
}

function shown({ base, url }: Asked, user: DirectoryUser, status = 200): Response {
	const wanted = readWanted(namesIn(url, 'attributes'), namesIn(url, 'excludedAttributes'));
	if (!wanted.ok) return scimRefusal(wanted.error);
	const location = `${base}/Users/${user.id}`;
	const isNew = status === 201 ? { location } : { 'content-location': location };
	return scimResponse(project(resourceOf(user, base), wanted.value), status, { etag: etagOf(user.version), ...isNew });
}

function namesIn(url: URL, name: string): readonly string[] {
	return (url.searchParams.get(name) ?? '').split(',').flatMap((one) => (one.trim() === '' ? [] : [one.trim()]));
}

/** Whether a condition names a version: weak and strong tags alike, as clients send both. */
function names(condition: string | null, version: number): boolean {
	if (condition === null) return false;
	return (
		condition.trim() === '*' || condition.split(',').some((tag) => tag.trim().replace(/^W\//, '') === `"${version}"`)
	);
}
