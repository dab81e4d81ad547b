import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { migrations, migrationsFrom } from '../../src/lib/server/store/migrations';
import { UnusableFile, openDatabase } from '../../src/lib/server/store/open';
import { Store } from '../../src/lib/server/store/store';

let folder: string;
let file: string;

beforeEach(() => {
	folder = mkdtempSync(path.join(tmpdir(), 'doorwright-'));
	file = path.join(folder, 'doorwright.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** What `openDatabase` throws. */
function refusalOf(steps = migrations): string {
	try {
		openDatabase(file, steps).close();
	} catch (error) {
		if (error instanceof UnusableFile) return error.message;
		throw error;
	}
	throw new Error('the file should have been refused');
}

const oneStep = migrationsFrom({ '0001-notes.sql': 'CREATE TABLE note (text TEXT NOT NULL) STRICT;' });
const twoSteps = migrationsFrom({
	'./m/0002-authors.sql': "ALTER TABLE note ADD COLUMN author TEXT NOT NULL DEFAULT 'nobody';",
	'./m/0001-notes.sql': 'CREATE TABLE note (text TEXT NOT NULL) STRICT;'
});

describe('a new file', () => {
	test('has the present version, for the eyes of its owner only', () => {
		const store = new Store(path.join(folder, 'a', 'b'));
		store.close();
		const made = path.join(folder, 'a', 'b', 'doorwright.sqlite');
		expect(statSync(made).mode & 0o077).toBe(0);
		expect(statSync(path.dirname(made)).mode & 0o077).toBe(0);
		const db = new Database(made, { readonly: true });
		expect(db.pragma('user_version', { simple: true })).toBe(migrations.length);
		db.close();
	});

	test('is written ahead, durably, with its references held and its tables strict', () => {
		const db = openDatabase(file);
		expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
		expect(db.pragma('synchronous', { simple: true })).toBe(2);
		expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
		expect(db.pragma('busy_timeout', { simple: true })).toBe(5000);
		const tables = db.pragma('table_list') as { name: string; strict: number; schema: string }[];
		const own = tables.filter(({ name, schema }) => schema === 'main' && !name.startsWith('sqlite_'));
		expect(own.length).toBeGreaterThan(4);
		expect(own.filter(({ strict }) => strict !== 1)).toEqual([]);
		expect(() => db.prepare('INSERT INTO piece VALUES (?, ?, 1, 1, ?)').run('nowhere', 'doors', '{}')).toThrow(
			/FOREIGN KEY/
		);
		db.close();
	});
});

describe('an older file', () => {
	test('is migrated with what is in it, and copied as it was before', () => {
		const old = openDatabase(file, oneStep);
		old.prepare('INSERT INTO note VALUES (?)').run('kept');
		old.close();
		const db = openDatabase(file, twoSteps);
		expect(db.prepare('SELECT * FROM note').all()).toEqual([{ text: 'kept', author: 'nobody' }]);
		db.close();
		const copy = new Database(`${file}.version-1`, { readonly: true });
		expect(copy.pragma('user_version', { simple: true })).toBe(1);
		expect(copy.prepare('SELECT * FROM note').all()).toEqual([{ text: 'kept' }]);
		copy.close();
		expect(statSync(`${file}.version-1`).mode & 0o077).toBe(0);
	});

	test('is copied under another name when there is a copy already, and not at all when it is up to date', () => {
		openDatabase(file, oneStep).close();
		writeFileSync(`${file}.version-1`, 'an earlier copy');
		openDatabase(file, twoSteps).close();
		openDatabase(file, twoSteps).close();
		expect(readFileSync(`${file}.version-1`, 'utf8')).toBe('an earlier copy');
		expect(
			readdirSync(folder)
				.filter((name) => name.includes('version'))
				.sort()
		).toEqual(['doorwright.sqlite.version-1', 'doorwright.sqlite.version-1-2']);
	});

	test('stays as it was when a migration fails', () => {
		openDatabase(file, oneStep).close();
		const broken = migrationsFrom({
			'0001-notes.sql': '',
			'0002-broken.sql': 'CREATE TABLE half (a TEXT) STRICT; nonsense;'
		});
		expect(() => openDatabase(file, broken)).toThrow(/nonsense/);
		const db = openDatabase(file, oneStep);
		expect(db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all()).toEqual(['note']);
		db.close();
	});
});

describe('what cannot be used is refused with what to do, and not touched', () => {
	test('a newer file', () => {
		openDatabase(file, twoSteps).close();
		const before = readFileSync(file);
		expect(refusalOf(oneStep)).toMatch(
			/newer Doorwright \(its version is 2, this program knows up to 1\).*Update Doorwright/
		);
		expect(readFileSync(file)).toEqual(before);
	});

	test("another program's database", () => {
		const other = new Database(file);
		other.exec('CREATE TABLE songs (title TEXT)');
		other.close();
		expect(refusalOf()).toContain('the database of another program');
	});

	test('a file that is no database', () => {
		writeFileSync(file, 'Dear diary, '.repeat(500));
		expect(refusalOf()).toContain('is no database, or is damaged');
		expect(readFileSync(file, 'utf8')).toContain('Dear diary');
	});
});

test('migrations are numbered from 1 without gaps', () => {
	expect(() => migrationsFrom({ '0001-a.sql': '', '0003-b.sql': '' })).toThrow('migration 0003-b should be number 2');
	expect(() => migrationsFrom({ '0001-a.sql': '', '0001-b.sql': '' })).toThrow('should be number 2');
	expect(migrations.map(({ version }) => version)).toEqual(migrations.map((_, index) => index + 1));
});
