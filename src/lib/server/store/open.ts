import { chmodSync, existsSync } from 'node:fs';
import Database from 'better-sqlite3';
import { type Migration, migrations as ownMigrations } from './migrations';

export type { Database } from 'better-sqlite3';

/** Marks the file as ours: "DOOR" in ASCII. */
const applicationId = 0x444f4f52;

/** The file cannot be used by this program; the message says why and what to do. */
export class UnusableFile extends Error {
	override readonly name = 'UnusableFile';
}

/**
 * Opens the database, made if it is not there, and brings it to the present version. A copy of the file is made before
 * an older one is changed. Throws `UnusableFile` for a file of a newer version, of another program, or that is damaged.
 */
export function openDatabase(file: string, migrations: readonly Migration[] = ownMigrations): Database.Database {
	const db = new Database(file);
	try {
		refuseForeign(db, file);
		db.pragma('journal_mode = WAL');
		// FULL: a change that was confirmed survives a power cut. Changes come at the pace of people, and one costs
		// about 2 ms; NORMAL could lose the last consent entries recorded.
		db.pragma('synchronous = FULL');
		// What is removed is overwritten, and nothing of it goes to a file for a while.
		db.pragma('secure_delete = ON');
		db.pragma('temp_store = MEMORY');
		db.pragma('foreign_keys = ON');
		db.pragma('busy_timeout = 5000');
		migrate(db, file, migrations);
		return db;
	} catch (error) {
		db.close();
		throw error;
	}
}

function refuseForeign(db: Database.Database, file: string): void {
	try {
		const id = db.pragma('application_id', { simple: true });
		const tables = db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get() as number;
		if (id === applicationId || (id === 0 && tables === 0)) return;
	} catch (error) {
		if (error instanceof Database.SqliteError && error.code === 'SQLITE_NOTADB') {
			throw new UnusableFile(`${file} is no database, or is damaged. Put a backup in its place, or move it away.`);
		}
		throw error;
	}
	throw new UnusableFile(`${file} is the database of another program. Name another data folder in DOORWRIGHT_DATA.`);
}

function migrate(db: Database.Database, file: string, migrations: readonly Migration[]): void {
	const version = db.pragma('user_version', { simple: true }) as number;
	const newest = migrations.length;
	if (version > newest) {
		throw new UnusableFile(
			`${file} was written by a newer Doorwright (its version is ${version}, this program knows up to ${newest}). ` +
				'Update Doorwright, or name another data folder in DOORWRIGHT_DATA.'
		);
	}
	const due = migrations.slice(version);
	if (due.length === 0) return;
	if (version > 0) copyAside(db, file, version);
	for (const { version: next, sql, then } of due) {
		db.transaction(() => {
			// Another process may have been faster while this one waited for the lock.
			if ((db.pragma('user_version', { simple: true }) as number) >= next) return;
			db.exec(sql);
			then?.(db);
			db.pragma(`application_id = ${applicationId}`);
			db.pragma(`user_version = ${next}`);
		}).exclusive();
	}
}

/** Copies the file as it is, next to it, for the case that a migration turns out wrong. */
function copyAside(db: Database.Database, file: string, version: number): void {
	const stem = `${file}.version-${version}`;
	let copy = stem;
	for (let n = 2; existsSync(copy); n++) copy = `${stem}-${n}`;
	db.prepare('VACUUM INTO ?').run(copy);
	chmodSync(copy, 0o600);
}
