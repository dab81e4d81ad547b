import type { LocalDate } from '../../core/calendar/local-date';
import type { JsonObject } from '../../core/roster/scim/scim-result';
import type { Database } from './open';

/** A token of an identity provider; the token itself is nowhere kept. */
export interface TokenRow {
	readonly number: number;
	readonly label: string;
	/** Instants, ISO 8601 in UTC. */
	readonly createdAt: string;
	readonly createdBy: string;
	readonly usedAt: string | null;
	readonly revokedAt: string | null;
	readonly revokedBy: string | null;
}

/** A user as the identity provider last had it. */
export interface DirectoryUser {
	/** In the order of arrival, from 1 within a rollout. */
	readonly number: number;
	/** The id of the resource, given out once. */
	readonly id: string;
	/** Without `id` and `meta`; null where the provider deleted the user. */
	readonly user: JsonObject | null;
	/** The id of the person. */
	readonly person: string;
	readonly endedOn: LocalDate | null;
	/** Counts the states of the resource. */
	readonly version: number;
	readonly createdAt: string;
	readonly modifiedAt: string;
	/** The version whose proposal a person set aside; null where none. */
	readonly setAside: number | null;
}

/** How what arrives is handled. */
export interface DirectorySettings {
	/** Applied as it arrives, instead of proposed. */
	readonly isApplied: boolean;
	/** The address under which the provider reaches this server; null: the one of the request. */
	readonly address: string | null;
}

const tokenColumns = `number, label, created_at AS createdAt, created_by AS createdBy, used_at AS usedAt,
	revoked_at AS revokedAt, revoked_by AS revokedBy`;
const userColumns = `number, id, body, person, ended_on AS endedOn, version, created_at AS createdAt,
	modified_at AS modifiedAt, set_aside AS setAside`;

type Raw = Omit<DirectoryUser, 'user'> & { readonly body: string | null };

/** What identity providers sent, and their tokens. */
export class DirectoryRepository {
	readonly #db: Database;

	constructor(db: Database) {
		this.#db = db;
	}

	tokens(rollout: string): readonly TokenRow[] {
		return this.#db
			.prepare<[string], TokenRow>(`SELECT ${tokenColumns} FROM scim_token WHERE rollout = ? ORDER BY number DESC`)
			.all(rollout);
	}

	/** The token with a hash, unless it was revoked. */
	tokenOf(rollout: string, hash: string): TokenRow | undefined {
		return this.#db
			.prepare<[string, string], TokenRow>(
				`SELECT ${tokenColumns} FROM scim_token WHERE rollout = ? AND hash = ? AND revoked_at IS NULL`
			)
			.get(rollout, hash);
	}

	addToken(rollout: string, hash: string, label: string, at: string, who: string): void {
		this.#db
			.prepare(
				`INSERT INTO scim_token (rollout, number, hash, label, created_at, created_by)
				VALUES (?, (SELECT coalesce(max(number), 0) + 1 FROM scim_token WHERE rollout = ?), ?, ?, ?, ?)`
			)
			.run(rollout, rollout, hash, label, at, who);
	}

	/** Notes the use of a token, once in a minute. */
	noteUse(rollout: string, number: number, at: string): void {
		this.#db
			.prepare(
				`UPDATE scim_token SET used_at = ? WHERE rollout = ? AND number = ? AND coalesce(substr(used_at, 1, 16), '') <> ?`
			)
			.run(at, rollout, number, at.slice(0, 16));
	}

	revokeToken(rollout: string, number: number, at: string, who: string): boolean {
		return (
			this.#db
				.prepare(
					`UPDATE scim_token SET revoked_at = ?, revoked_by = ? WHERE rollout = ? AND number = ? AND revoked_at IS NULL`
				)
				.run(at, who, rollout, number).changes === 1
		);
	}

	settings(rollout: string): DirectorySettings {
		const row = this.#db
			.prepare<[string], { applied: number; address: string | null }>(
				'SELECT applied, address FROM scim_setting WHERE rollout = ?'
			)
			.get(rollout);
		return { isApplied: row?.applied === 1, address: row?.address ?? null };
	}

	setSettings(rollout: string, { isApplied, address }: DirectorySettings): void {
		this.#db
			.prepare(
				`INSERT INTO scim_setting (rollout, applied, address) VALUES (?, ?, ?)
				ON CONFLICT (rollout) DO UPDATE SET applied = excluded.applied, address = excluded.address`
			)
			.run(rollout, isApplied ? 1 : 0, address);
	}

	/** Every user in the order of arrival, deleted ones among them. */
	users(rollout: string): readonly DirectoryUser[] {
		return this.#db
			.prepare<[string], Raw>(`SELECT ${userColumns} FROM scim_user WHERE rollout = ? ORDER BY number`)
			.all(rollout)
			.map(complete);
	}

	find(rollout: string, id: string): DirectoryUser | undefined {
		const row = this.#db
			.prepare<[string, string], Raw>(`SELECT ${userColumns} FROM scim_user WHERE rollout = ? AND id = ?`)
			.get(rollout, id);
		return row && complete(row);
	}

	/** The number of users ever and the sum of their versions: tells whether what is in memory still holds. */
	state(rollout: string): string {
		return this.#db
			.prepare<[string], string>(
				`SELECT count(*) || '-' || coalesce(sum(version), 0) || '-' || coalesce(sum(set_aside), 0)
				FROM scim_user WHERE rollout = ?`
			)
			.pluck()
			.get(rollout) as string;
	}

	add(rollout: string, entry: Omit<DirectoryUser, 'number' | 'version' | 'setAside'>): DirectoryUser {
		const number = this.#db
			.prepare<unknown[], number>(
				`INSERT INTO scim_user (rollout, number, id, body, person, ended_on, version, created_at, modified_at)
				VALUES (?, (SELECT coalesce(max(number), 0) + 1 FROM scim_user WHERE rollout = ?), ?, ?, ?, ?, 1, ?, ?)
				RETURNING number`
			)
			.pluck()
			.get(
				rollout,
				rollout,
				entry.id,
				JSON.stringify(entry.user),
				entry.person,
				entry.endedOn,
				entry.createdAt,
				entry.modifiedAt
			) as number;
		return { ...entry, number, version: 1, setAside: null };
	}

	/** Keeps another state of a user under its version; deleted where `user` is null. */
	update(rollout: string, { id, user, person, endedOn, modifiedAt, version }: DirectoryUser): void {
		this.#db
			.prepare(
				`UPDATE scim_user SET body = ?, person = ?, ended_on = ?, modified_at = ?, version = ?, set_aside = NULL
				WHERE rollout = ? AND id = ?`
			)
			.run(user === null ? null : JSON.stringify(user), person, endedOn, modifiedAt, version, rollout, id);
	}

	/** Sets aside what is proposed of a person until the provider says something new of it. */
	setAside(rollout: string, person: string): void {
		this.#db.prepare('UPDATE scim_user SET set_aside = version WHERE rollout = ? AND person = ?').run(rollout, person);
	}
}

function complete({ body, ...row }: Raw): DirectoryUser {
	return { ...row, user: body === null ? null : (JSON.parse(body) as JsonObject) };
}
