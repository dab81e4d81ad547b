import type { Database } from 'better-sqlite3';
import type { Seal } from '../../core/document/record-chain';
import type { RolloutDocument } from '../../core/document/schema';
import { revisionOf } from '../../core/document/revision';
import type { Head, StoredIssue, StoredRecord } from '../../core/document/verify-record';
import { quickHash, readChanges } from './record-seals';
import { type Piece, assemble } from './pieces';

/** The seal of the latest change of a rollout. */
export function readHeadOf(db: Database, rollout: string): Head | undefined {
	return db
		.prepare<[string], Head>('SELECT number, hash FROM change_seal WHERE rollout = ? ORDER BY number DESC LIMIT 1')
		.get(rollout);
}

/** Everything about the record of a rollout that verifying needs; undefined where there is no such rollout. */
export function readRecord(db: Database, rollout: string): StoredRecord | undefined {
	const row = db
		.prepare<[string], Pick<StoredRecord, 'createdAt' | 'lastChange' | 'revision'>>(
			'SELECT created_at AS createdAt, last_change AS lastChange, revision FROM rollout WHERE id = ?'
		)
		.get(rollout);
	if (!row) return undefined;
	const seals = db
		.prepare<[string], Omit<Seal, 'redaction'> & { by: number | null; left: string | null }>(
			`SELECT number, salt, content, previous, hash, redacted_by AS "by", redacted_content AS "left"
			FROM change_seal WHERE rollout = ? ORDER BY number`
		)
		.all(rollout)
		.map(({ by, left, ...seal }): Seal => ({ ...seal, redaction: by === null ? null : { by, content: left ?? '' } }));
	const pieces = db
		.prepare<[string], Omit<Piece, 'value'> & { body: string }>(
			'SELECT path, number, position, body FROM piece WHERE rollout = ?'
		)
		.all(rollout)
		.map(({ body, ...piece }): Piece => ({ ...piece, value: JSON.parse(body) as unknown }));
	const documentRevision = revisionOf(assemble(pieces).document, quickHash);
	return {
		rollout,
		...row,
		documentRevision,
		changes: readChanges(db, rollout),
		seals,
		issues: readIssues(db, rollout)
	};
}

function readIssues(db: Database, rollout: string): StoredIssue[] {
	return db
		.prepare<[string], Omit<StoredIssue, 'documentRevision'> & { document: string | null }>(
			'SELECT number, change, revision, document FROM issue WHERE rollout = ? ORDER BY number'
		)
		.all(rollout)
		.map(({ document, ...issue }) => ({
			...issue,
			documentRevision: document === null ? null : revisionOf(JSON.parse(document) as RolloutDocument, quickHash)
		}));
}
