import { planPieces, nothingStored, type PieceChange } from './plan-pieces';
import type { Database } from './open';
import { type Piece, type Stored, assemble } from './pieces';
import type { RolloutDocument } from '../../core/document/schema';

/** A rollout as it is listed, without its document. */
export interface RolloutRow {
	readonly id: string;
	/** The site's name. */
	readonly name: string;
	/** Instants, ISO 8601 in UTC. */
	readonly createdAt: string;
	readonly removedAt: string | null;
	readonly removedBy: string | null;
	readonly changedAt: string;
	readonly changedBy: string;
	/** The number of the latest change. */
	readonly lastChange: number;
	readonly revision: string;
	readonly nextPiece: number;
	readonly people: number;
	readonly doors: number;
}

const columns = `
	r.id, r.name, r.created_at AS createdAt, r.removed_at AS removedAt, r.removed_by AS removedBy,
	c.at AS changedAt, c.who AS changedBy, r.last_change AS lastChange, r.revision, r.next_piece AS nextPiece,
	(SELECT count(*) FROM piece p WHERE p.rollout = r.id AND p.path = 'people' AND p.number > 0) AS people,
	(SELECT count(*) FROM piece p WHERE p.rollout = r.id AND p.path = 'doors' AND p.number > 0) AS doors
	FROM rollout r JOIN change c ON c.rollout = r.id AND c.number = r.last_change`;

/** Rollouts and the pieces of their documents. */
export class RolloutRepository {
	readonly #db: Database;

	constructor(db: Database) {
		this.#db = db;
	}

	/** Every rollout, the one changed last first; removed ones only when asked for. */
	list(removed: boolean): readonly RolloutRow[] {
		const where = removed ? 'IS NOT NULL' : 'IS NULL';
		return this.#db
			.prepare<[], RolloutRow>(`SELECT ${columns} WHERE r.removed_at ${where} ORDER BY c.at DESC, r.id`)
			.all();
	}

	find(id: string): RolloutRow | undefined {
		return this.#db.prepare<[string], RolloutRow>(`SELECT ${columns} WHERE r.id = ?`).get(id);
	}

	/** The revision and the number of the latest change: tells whether what is in memory still holds. */
	stateOf(id: string): Pick<RolloutRow, 'lastChange' | 'revision' | 'removedAt'> | undefined {
		return this.#db
			.prepare<[string], Pick<RolloutRow, 'lastChange' | 'revision' | 'removedAt'>>(
				'SELECT last_change AS lastChange, revision, removed_at AS removedAt FROM rollout WHERE id = ?'
			)
			.get(id);
	}

	hasId(id: string): boolean {
		return this.#db.prepare('SELECT 1 FROM rollout WHERE id = ?').get(id) !== undefined;
	}

	read(id: string): Stored {
		const rows = this.#db
			.prepare<[string], { path: string; number: number; position: number; body: string }>(
				'SELECT path, number, position, body FROM piece WHERE rollout = ?'
			)
			.all(id);
		return assemble(rows.map(({ body, ...row }): Piece => ({ ...row, value: JSON.parse(body) as unknown })));
	}

	/** Keeps a new document; its first change must be written in the same transaction. */
	create(id: string, name: string, document: RolloutDocument, revision: string, at: string): Stored {
		const plan = planPieces(nothingStored, document, 1);
		this.#db
			.prepare(
				`INSERT INTO rollout (id, name, created_at, last_change, revision, next_piece) VALUES (?, ?, ?, 1, ?, ?)`
			)
			.run(id, name, at, revision, plan.nextPiece);
		this.writePieces(id, plan.changes);
		return { document, layout: plan.layout };
	}

	/** Notes a change on the rollout. False when another change came first: then nothing may be written. */
	advance(id: string, from: number, name: string, revision: string, nextPiece: number): boolean {
		return (
			this.#db
				.prepare(
					`UPDATE rollout SET name = ?, revision = ?, next_piece = max(next_piece, ?), last_change = last_change + 1
					WHERE id = ? AND last_change = ?`
				)
				.run(name, revision, nextPiece, id, from).changes === 1
		);
	}

	/** Writes exactly the pieces that changed. */
	writePieces(id: string, changes: readonly PieceChange[]): void {
		const insert = this.#db.prepare('INSERT INTO piece (rollout, path, number, position, body) VALUES (?, ?, ?, ?, ?)');
		const update = this.#db.prepare(
			'UPDATE piece SET position = ?, body = ? WHERE rollout = ? AND path = ? AND number = ?'
		);
		const remove = this.#db.prepare('DELETE FROM piece WHERE rollout = ? AND path = ? AND number = ?');
		for (const { path, number, before, after } of changes) {
			if (after === null) remove.run(id, path, number);
			else if (before === null) insert.run(id, path, number, after.position, JSON.stringify(after.value));
			else update.run(after.position, JSON.stringify(after.value), id, path, number);
		}
	}

	setRemoved(id: string, at: string | null, by: string | null): void {
		this.#db.prepare('UPDATE rollout SET removed_at = ?, removed_by = ? WHERE id = ?').run(at, by, id);
	}

	/** Erases a rollout with its whole history; there is no way back. */
	erase(id: string): void {
		this.#db.prepare('DELETE FROM rollout WHERE id = ?').run(id);
		// What was decided about lists of people is a fact of the installation, and names people.
		this.#db
			.prepare("DELETE FROM installation WHERE key IN ('roster of ' || :id, 'calendars-taken ' || :id)")
			.run({ id });
	}

	/** Ids of rollouts removed before an instant. */
	removedBefore(at: string): readonly string[] {
		return this.#db.prepare<[string], string>('SELECT id FROM rollout WHERE removed_at < ?').pluck().all(at);
	}
}
