import type { Database } from './open';

/** A copy of personal data that was taken out of the program. */
export interface CopyRow {
	readonly number: number;
	/** Instant, ISO 8601 in UTC. */
	readonly at: string;
	readonly who: string;
	readonly what: string;
	readonly file: string;
	/** Set when somebody says that this copy is no more. */
	readonly destroyedOn: string | null;
}

/** Copies that were taken of rollouts. */
export class CopyRepository {
	readonly #db: Database;

	constructor(db: Database) {
		this.#db = db;
	}

	/** The latest first. */
	list(rollout: string): readonly CopyRow[] {
		return this.#db
			.prepare<[string], CopyRow>(
				`SELECT number, at, who, what, file, destroyed_on AS destroyedOn FROM copy WHERE rollout = ? ORDER BY number DESC`
			)
			.all(rollout);
	}

	/** Notes a copy; the same one taken again by the same person on the same day counts once. */
	add(rollout: string, copy: Omit<CopyRow, 'number' | 'destroyedOn'>): void {
		const again = this.#db
			.prepare(
				`UPDATE copy SET at = ? WHERE rollout = ? AND who = ? AND what = ? AND file = ? AND destroyed_on IS NULL
				AND substr(at, 1, 10) = substr(?, 1, 10)`
			)
			.run(copy.at, rollout, copy.who, copy.what, copy.file, copy.at).changes;
		if (again > 0) return;
		this.#db
			.prepare(
				`INSERT INTO copy (rollout, number, at, who, what, file)
				VALUES (?, (SELECT coalesce(max(number), 0) + 1 FROM copy WHERE rollout = ?), ?, ?, ?, ?)`
			)
			.run(rollout, rollout, copy.at, copy.who, copy.what, copy.file);
	}

	/** Notes that a copy is no more; false where there is no such copy. */
	setDestroyed(rollout: string, number: number, on: string): boolean {
		return (
			this.#db.prepare('UPDATE copy SET destroyed_on = ? WHERE rollout = ? AND number = ?').run(on, rollout, number)
				.changes === 1
		);
	}
}
