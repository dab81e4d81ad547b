import { removalEdit } from '../../core/document/record-chain';
import type { Database } from './open';
import type { PieceChange, PieceState } from './plan-pieces';
import { sealChange } from './record-seals';

/** An entry of the change record. */
export interface ChangeRow {
	/** From 1 within a rollout. */
	readonly number: number;
	/** Instant, ISO 8601 in UTC. */
	readonly at: string;
	readonly who: string;
	readonly what: string;
	readonly edit: string;
	readonly params: unknown;
	/** The revision that it led to. */
	readonly revision: string;
	/** The change that it took back. */
	readonly undoes: number | null;
	/** The change that took it back, when none has taken that back in turn. */
	readonly undoneBy: number | null;
	/** How many pieces of the document it touched. */
	readonly pieces: number;
	/** Its hash in the chain; null where somebody has removed it. */
	readonly seal: string | null;
	/** The change that took its content out when people were removed. */
	readonly redactedBy: number | null;
}

export type NewChange = Omit<ChangeRow, 'undoneBy' | 'pieces' | 'seal' | 'redactedBy'>;

/** The change behind what was done to an entry. */
export interface ChangeBehind {
	readonly change: number;
	readonly at: string;
	readonly who: string;
	readonly edit: string;
	/** Read when asked for: of some changes they are large. */
	readonly params: () => unknown;
}

/** What a change did to one entry of a list; null where it was not there. */
export interface EntryChange extends ChangeBehind {
	/** The number of its piece. */
	readonly piece: number;
	readonly before: unknown;
	readonly after: unknown;
}

interface RawEntryChange {
	readonly piece: number;
	readonly change: number;
	readonly before: string | null;
	readonly after: string | null;
}

type RawChange = Omit<ChangeRow, 'params' | 'undoneBy'> & { readonly params: string };

const columns = `
	c.number, c.at, c.who, c.what, c.edit, c.params, c.revision, c.undoes,
	(SELECT count(*) FROM change_piece p WHERE p.rollout = c.rollout AND p.change = c.number) AS pieces,
	(SELECT s.hash FROM change_seal s WHERE s.rollout = c.rollout AND s.number = c.number) AS seal,
	(SELECT s.redacted_by FROM change_seal s WHERE s.rollout = c.rollout AND s.number = c.number) AS redactedBy
	FROM change c`;

/** The change record: what was done to a rollout, by whom and when, with what stood there before and after. */
export class ChangeRepository {
	readonly #db: Database;

	constructor(db: Database) {
		this.#db = db;
	}

	/** Adds a change and seals it; gives its seal. */
	add(rollout: string, change: NewChange, pieces: readonly PieceChange[]): string {
		this.#db
			.prepare(
				'INSERT INTO change (rollout, number, at, who, what, edit, params, revision, undoes) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)'
			)
			.run(
				rollout,
				change.number,
				change.at,
				change.who,
				change.what,
				change.edit,
				JSON.stringify(change.params ?? null),
				change.revision,
				change.undoes
			);
		const insert = this.#db.prepare(
			`INSERT INTO change_piece (rollout, change, path, number, position_before, body_before, position_after, body_after)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?)`
		);
		for (const { path, number, before, after } of pieces) {
			insert.run(rollout, change.number, path, number, ...columnsOf(before), ...columnsOf(after));
		}
		return sealChange(this.#db, rollout, change.number);
	}

	/** Changes from the latest backwards, `before` a number when given. */
	list(rollout: string, before: number, limit: number): readonly ChangeRow[] {
		return this.#db
			.prepare<[string, number, number], RawChange>(
				`SELECT ${columns} WHERE c.rollout = ? AND c.number < ? ORDER BY c.number DESC LIMIT ?`
			)
			.all(rollout, before, limit)
			.map((row) => this.#complete(rollout, row));
	}

	find(rollout: string, number: number): ChangeRow | undefined {
		const row = this.#db
			.prepare<[string, number], RawChange>(`SELECT ${columns} WHERE c.rollout = ? AND c.number = ?`)
			.get(rollout, number);
		return row && this.#complete(rollout, row);
	}

	/** The latest change that is in effect and is no undoing itself; the first, which made the rollout, is none. */
	findUndoable(rollout: string): number | undefined {
		const first = Math.max(1, this.lastRemoval(rollout));
		return this.#numbers(rollout, `undoes IS NULL AND number > ${first}`).find(
			(number) => this.#undoneBy(rollout, number) === null
		);
	}

	/** The latest undoing in effect that no change of another kind has followed. */
	findRedoable(rollout: string): number | undefined {
		for (const number of this.#numbers(rollout, 'number > 1')) {
			const change = this.find(rollout, number);
			if (!change || change.undoes === null) return undefined;
			const undone = this.find(rollout, change.undoes);
			if (change.undoneBy === null && undone?.undoes === null) return number;
		}
		return undefined;
	}

	/** The number of the latest change that removed people; 0 where none did. */
	lastRemoval(rollout: string): number {
		return (
			this.#db
				.prepare<[string, string], number>('SELECT max(number) FROM change WHERE rollout = ? AND edit = ?')
				.pluck()
				.get(rollout, removalEdit) ?? 0
		);
	}

	piecesOf(rollout: string, number: number): readonly PieceChange[] {
		return this.#db
			.prepare<[string, number], RawPiece>(
				`SELECT path, number, position_before, body_before, position_after, body_after
				FROM change_piece WHERE rollout = ? AND change = ?`
			)
			.all(rollout, number)
			.map((row) => ({
				path: row.path,
				number: row.number,
				before: stateOf(row.position_before, row.body_before),
				after: stateOf(row.position_after, row.body_after)
			}));
	}

	/** How each piece that was touched after a change stood at that change: null where it was not there. */
	statesAt(rollout: string, number: number): readonly Pick<PieceChange, 'path' | 'number' | 'before'>[] {
		return this.#db
			.prepare<[string, number], RawPiece & { readonly first: number }>(
				`SELECT path, number, position_before, body_before, position_after, body_after, min(change) AS first
				FROM change_piece WHERE rollout = ? AND change > ? GROUP BY path, number`
			)
			.all(rollout, number)
			.map((row) => ({
				path: row.path,
				number: row.number,
				before: stateOf(row.position_before, row.body_before)
			}));
	}

	/** Numbers of the changes after one that touched any of the pieces. */
	laterOn(rollout: string, after: number, pieces: readonly Pick<PieceChange, 'path' | 'number'>[]): readonly number[] {
		const later = this.#db
			.prepare<[string, string, number, number], number>(
				'SELECT change FROM change_piece WHERE rollout = ? AND path = ? AND number = ? AND change > ?'
			)
			.pluck();
		const numbers = pieces.flatMap(({ path, number }) => later.all(rollout, path, number, after));
		return [...new Set(numbers)].sort((a, b) => a - b);
	}

	/**
	 * What was done to entries of a list by changes that are in effect, in their order; undoings and what they took back are left
	 * out, as if neither had been. Of all entries, or of those with these numbers.
	 */
	entryHistory(rollout: string, path: string, numbers?: readonly number[]): readonly EntryChange[] {
		const effective = this.#inEffect(rollout);
		const select = `SELECT p.number AS piece, p.change, p.body_before AS before, p.body_after AS after
			FROM change_piece p WHERE p.rollout = ? AND p.path = ? AND p.number`;
		const rows =
			numbers === undefined
				? this.#db
						.prepare<[string, string], RawEntryChange>(`${select} > 0 ORDER BY p.number, p.change`)
						.all(rollout, path)
				: numbers.flatMap((number) =>
						this.#db
							.prepare<[string, string, number], RawEntryChange>(`${select} = ? ORDER BY p.change`)
							.all(rollout, path, number)
					);
		return rows.flatMap(({ piece, change, before, after }) => {
			const record = effective.get(change);
			if (!record) return [];
			const read = (body: string | null): unknown => (body === null ? null : (JSON.parse(body) as unknown));
			return [{ ...record, piece, before: read(before), after: read(after) }];
		});
	}

	/**
	 * Every change of entries of a list in the order of the changes, undoings and what they took back as well: what the entry was
	 * after it, and before; null where it was not there.
	 */
	entryStates(
		rollout: string,
		path: string
	): readonly { change: number; at: string; piece: number; before: unknown; after: unknown }[] {
		return this.#db
			.prepare<[string, string], RawEntryChange & { readonly at: string }>(
				`SELECT p.number AS piece, p.change, c.at, p.body_before AS before, p.body_after AS after
				FROM change_piece p JOIN change c ON c.rollout = p.rollout AND c.number = p.change
				WHERE p.rollout = ? AND p.path = ? AND p.number > 0 ORDER BY p.change, p.number`
			)
			.all(rollout, path)
			.map(({ before, after, ...row }) => ({ ...row, before: parsed(before), after: parsed(after) }));
	}

	/** Numbers of the entries of a list that a change of another edit than this one touched. */
	entriesTouchedBeside(rollout: string, path: string, edit: string): readonly number[] {
		return this.#db
			.prepare<[string, string, string], number>(
				`SELECT DISTINCT p.number FROM change_piece p JOIN change c ON c.rollout = p.rollout AND c.number = p.change
				WHERE p.rollout = ? AND p.path = ? AND p.number > 0 AND c.edit <> ? AND c.undoes IS NULL`
			)
			.pluck()
			.all(rollout, path, edit);
	}

	#inEffect(rollout: string): ReadonlyMap<number, ChangeBehind> {
		const rows = this.#db
			.prepare<
				[string],
				{ number: number; at: string; who: string; edit: string; params: string; undoes: number | null }
			>('SELECT number, at, who, edit, params, undoes FROM change WHERE rollout = ? ORDER BY number DESC')
			.all(rollout);
		const undone = new Set<number>();
		const inEffect = new Map<number, ChangeBehind>();
		for (const { number, undoes, params, ...row } of rows) {
			if (undone.has(number)) continue;
			if (undoes !== null) undone.add(undoes);
			else inEffect.set(number, { ...row, change: number, params: () => JSON.parse(params) as unknown });
		}
		return inEffect;
	}

	#numbers(rollout: string, where: string): readonly number[] {
		return this.#db
			.prepare<[string], number>(`SELECT number FROM change WHERE rollout = ? AND ${where} ORDER BY number DESC`)
			.pluck()
			.all(rollout);
	}

	#complete(rollout: string, { params, ...row }: RawChange): ChangeRow {
		return { ...row, params: JSON.parse(params) as unknown, undoneBy: this.#undoneBy(rollout, row.number) };
	}

	/** An undoing that was undone itself counts as if it had not been. */
	#undoneBy(rollout: string, number: number): number | null {
		const undoings = this.#db
			.prepare<[string, number], number>(
				'SELECT number FROM change WHERE rollout = ? AND undoes = ? ORDER BY number DESC'
			)
			.pluck()
			.all(rollout, number);
		return undoings.find((undoing) => this.#undoneBy(rollout, undoing) === null) ?? null;
	}
}

function parsed(body: string | null): unknown {
	return body === null ? null : (JSON.parse(body) as unknown);
}

interface RawPiece {
	readonly path: string;
	readonly number: number;
	readonly position_before: number | null;
	readonly body_before: string | null;
	readonly position_after: number | null;
	readonly body_after: string | null;
}

function columnsOf(state: PieceState | null): [number | null, string | null] {
	return state ? [state.position, JSON.stringify(state.value)] : [null, null];
}

function stateOf(position: number | null, body: string | null): PieceState | null {
	return position === null || body === null ? null : { position, value: JSON.parse(body) as unknown };
}
