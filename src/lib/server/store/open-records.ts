import { existsSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { StoredRecord } from '../../core/document/verify-record';
import { fault } from '../../core/kernel/fault';
import { nearestName } from '../../core/kernel/nearest';
import { type Result, ok, refused } from '../../core/kernel/result';
import { readRecord } from './record-reading';

/**
 * Reads the change records of a data folder without changing anything in it; deleted rollouts among them, as long as they
 * can be restored. Only that of one rollout where an id is given.
 */
export function readRecordsIn(folder: string, rollout?: string): Result<readonly StoredRecord[]> {
	const file = path.resolve(folder, 'doorwright.sqlite');
	if (!existsSync(file)) return refused([fault(['data'], folder, `a data folder; there is no ${file}`)]);
	const db = new Database(file, { readonly: true });
	try {
		const ids = idsIn(db);
		if (ids === undefined) {
			return refused([fault(['data'], folder, 'a data folder with sealed records; start this Doorwright on it once')]);
		}
		if (rollout !== undefined && !ids.includes(rollout)) {
			return refused([fault(['rollout'], rollout, 'the id of a rollout', nearestName(rollout, ids))]);
		}
		const wanted = rollout === undefined ? ids : [rollout];
		return ok(wanted.flatMap((id) => readRecord(db, id) ?? []));
	} finally {
		db.close();
	}
}

/** Undefined where the file is none of ours, or of a version before the chain. */
function idsIn(db: Database.Database): readonly string[] | undefined {
	try {
		// The column came with the last version that changed what verifying reads.
		const isSealed =
			db.prepare("SELECT 1 FROM pragma_table_info('change_seal') WHERE name = 'redacted_by'").get() !== undefined;
		return isSealed ? db.prepare<[], string>('SELECT id FROM rollout ORDER BY id').pluck().all() : undefined;
	} catch (error) {
		if (error instanceof Database.SqliteError && error.code === 'SQLITE_NOTADB') return undefined;
		throw error;
	}
}
