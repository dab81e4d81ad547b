import { createHash, randomBytes } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { type RecordedChange, type RecordedPiece, originOf, sealOf } from '../../core/document/record-chain';

/** The platform's own SHA-256. */
export const quickHash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Seals a change that was just written after the one before it; in the transaction that writes it. Gives its seal. */
export function sealChange(db: Database, rollout: string, number: number): string {
	const change = readChanges(db, rollout, number)[0];
	if (!change) throw new Error(`change ${number} of ${rollout} must be written before it is sealed`);
	const previous = number === 1 ? readOrigin(db, rollout) : readSeal(db, rollout, number - 1);
	// Where somebody removed the seal before, this one follows nothing: verifying then tells of the gap.
	const seal = sealOf(change, previous ?? '', randomBytes(16).toString('hex'), quickHash);
	db.prepare('INSERT INTO change_seal (rollout, number, salt, content, previous, hash) VALUES (?, ?, ?, ?, ?, ?)').run(
		rollout,
		number,
		seal.salt,
		seal.content,
		seal.previous,
		seal.hash
	);
	return seal.hash;
}

/** Seals what versions before the chain recorded. */
export function sealExistingChanges(db: Database): void {
	const changes = db
		.prepare<[], { rollout: string; number: number }>('SELECT rollout, number FROM change ORDER BY rollout, number')
		.all();
	for (const { rollout, number } of changes) sealChange(db, rollout, number);
}

/** Changes of a rollout as they are stored, in their order; only one where a number is given. */
export function readChanges(db: Database, rollout: string, only?: number): readonly RecordedChange[] {
	const where = only === undefined ? '' : 'AND number = ?';
	const args = only === undefined ? [rollout] : [rollout, only];
	const pieces = new Map<number, RecordedPiece[]>();
	const rows = db
		.prepare<unknown[], RecordedPiece & { change: number }>(
			`SELECT change, path, number, position_before AS positionBefore, body_before AS bodyBefore,
			position_after AS positionAfter, body_after AS bodyAfter
			FROM change_piece WHERE rollout = ? ${where.replace('number', 'change')}`
		)
		.all(...args);
	for (const { change, ...piece } of rows) {
		const list = pieces.get(change);
		if (list) list.push(piece);
		else pieces.set(change, [piece]);
	}
	return db
		.prepare<unknown[], Omit<RecordedChange, 'pieces'>>(
			`SELECT number, at, who, what, edit, params, revision, undoes
			FROM change WHERE rollout = ? ${where} ORDER BY number`
		)
		.all(...args)
		.map((change) => ({ ...change, pieces: pieces.get(change.number) ?? [] }));
}

function readSeal(db: Database, rollout: string, number: number): string | undefined {
	return db
		.prepare<[string, number], string>('SELECT hash FROM change_seal WHERE rollout = ? AND number = ?')
		.pluck()
		.get(rollout, number);
}

function readOrigin(db: Database, rollout: string): string {
	const createdAt = db.prepare<[string], string>('SELECT created_at FROM rollout WHERE id = ?').pluck().get(rollout);
	return originOf(rollout, createdAt ?? '', quickHash);
}
