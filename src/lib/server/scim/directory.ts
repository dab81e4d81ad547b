import { randomUUID } from 'node:crypto';
import type { LocalDate } from '../../core/calendar/local-date';
import { isActive, personIdOf } from '../../core/roster/scim/person-of-user';
import type { DirectoryEntry } from '../../core/roster/scim/proposal';
import { type JsonObject, type ScimResult, given, refusedWith, wrong } from '../../core/roster/scim/scim-result';
import { todayAt } from '../clock';
import type { OpenRollout } from '../open-rollouts';
import { store } from '../store/current';
import type { DirectoryUser } from '../store/directory-repository';

const remembered = new Map<string, { readonly state: string; readonly users: readonly DirectoryUser[] }>();
const most = 4;

/** Every user that a provider sent to a rollout, in the order of arrival, deleted ones among them. */
export function directoryOf(rollout: string): readonly DirectoryUser[] {
	const state = store().directory.state(rollout);
	const known = remembered.get(rollout);
	if (known?.state === state) return known.users;
	return rememberUsers(rollout, state, store().directory.users(rollout));
}

function rememberUsers(rollout: string, state: string, users: readonly DirectoryUser[]): readonly DirectoryUser[] {
	remembered.delete(rollout);
	remembered.set(rollout, { state, users });
	for (const oldest of remembered.keys()) {
		if (remembered.size <= most) break;
		remembered.delete(oldest);
	}
	return users;
}

/**
 * Keeps in memory what was just written, so that twenty thousand users are not read again for each that comes. Where the
 * transaction fails after this, the state in the store is another one, and everything is read again.
 */
function rememberWritten(rollout: string, before: readonly DirectoryUser[], written: DirectoryUser): DirectoryUser {
	const index = written.number - 1;
	const users = index < before.length ? before.with(index, written) : [...before, written];
	rememberUsers(rollout, store().directory.state(rollout), users);
	return written;
}

/** What the core compares with the rollout; without what a person set aside. */
export function entriesOf(rollout: string): readonly DirectoryEntry[] {
	return directoryOf(rollout)
		.filter(({ setAside, version }) => setAside !== version)
		.map(({ number, person, user, endedOn }) => ({ number, person, user, endedOn }));
}

/** A user as clients see it. @source RFC 7643, section 3.1 */
export function resourceOf({ id, user, version, createdAt, modifiedAt }: DirectoryUser, base: string): JsonObject {
	return {
		...(user ?? {}),
		id,
		meta: {
			resourceType: 'User',
			created: createdAt,
			lastModified: modifiedAt,
			location: `${base}/Users/${id}`,
			version: etagOf(version)
		}
	};
}

/** The entity tag of a version. Weak, as in the examples of RFC 7644, section 3.14. */
export function etagOf(version: number): string {
	return `W/"${version}"`;
}

/** Keeps a new user. Refuses a user name or a staff number that another user has. */
export function addUser(open: OpenRollout, user: JsonObject): ScimResult<DirectoryUser> {
	const person = personFor(open, user, undefined);
	if (!person.ok) return person;
	const at = new Date().toISOString();
	const earlier = directoryOf(open.id).findLast((one) => one.user === null && one.person === person.value);
	const endedOn = isActive(user) ? (earlier?.endedOn ?? null) : today(open);
	const entry = { id: randomUUID(), user, person: person.value, endedOn, createdAt: at, modifiedAt: at };
	const before = directoryOf(open.id);
	return given(rememberWritten(open.id, before, store().directory.add(open.id, entry)));
}

/** Keeps another state of a user. */
export function changeUser(open: OpenRollout, before: DirectoryUser, user: JsonObject): ScimResult<DirectoryUser> {
	const person = personFor(open, user, before);
	if (!person.ok) return person;
	const wasActive = before.user !== null && isActive(before.user);
	const endedOn = wasActive && !isActive(user) ? today(open) : before.endedOn;
	return given(keep(open, { ...before, user, person: person.value, endedOn }));
}

/** Deletes a user: what it had sent goes at once, that it left stays. */
export function removeUser(open: OpenRollout, before: DirectoryUser): DirectoryUser {
	const wasActive = before.user !== null && isActive(before.user);
	return keep(open, { ...before, user: null, endedOn: wasActive ? today(open) : (before.endedOn ?? today(open)) });
}

function keep(open: OpenRollout, user: DirectoryUser): DirectoryUser {
	const before = directoryOf(open.id);
	const written = { ...user, modifiedAt: new Date().toISOString(), version: user.version + 1, setAside: null };
	store().directory.update(open.id, written);
	return rememberWritten(open.id, before, written);
}

/**
 * The id that the person of a user has. Once it is in the document it stays: a new number would be another person to everything
 * that is recorded under the old one.
 */
function personFor(open: OpenRollout, user: JsonObject, before: DirectoryUser | undefined): ScimResult<string> {
	const others = directoryOf(open.id).filter((one) => one.user !== null && one.id !== before?.id);
	const userName = folded(user['userName']);
	if (others.some((one) => folded(one.user?.['userName']) === userName)) {
		return refusedWith(409, `Another user has the userName ${userName}.`, 'uniqueness');
	}
	const isKnown = before !== undefined && open.rollout.people.some(({ id }) => id === before.person);
	const person = isKnown ? before.person : personIdOf(user);
	if (person === undefined) {
		return wrong('invalidValue', 'The staff number is longer than 64 characters or has control characters in it.');
	}
	if (others.some((one) => one.person === person)) {
		return refusedWith(409, `Another user has the staff number ${person}.`, 'uniqueness');
	}
	return given(person);
}

function folded(value: unknown): string {
	return typeof value === 'string' ? value.trim().toLowerCase() : '';
}

function today(open: OpenRollout): LocalDate {
	return todayAt(open.rollout.site.timeZone);
}
