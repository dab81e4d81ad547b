import type { Database } from 'better-sqlite3';
import { sealExistingChanges } from './record-seals';

/** A step of the file's format: forward only, never edited once released. */
export interface Migration {
	/** From 1, without gaps; the version of the file after it. */
	readonly version: number;
	/** `0001-rollouts`, for messages. */
	readonly name: string;
	readonly sql: string;
	/** What SQL cannot do, in the same transaction after it. */
	readonly then?: (db: Database) => void;
}

/** Reads `NNNN-name.sql` files as migrations, in order; throws when a number is missing or stands twice. */
export function migrationsFrom(
	files: Readonly<Record<string, string>>,
	steps: Readonly<Record<string, (db: Database) => void>> = {}
): readonly Migration[] {
	const migrations = Object.entries(files)
		.map(([file, sql]): Migration => {
			const name = file.replace(/^.*\//, '').replace(/\.sql$/, '');
			const then = steps[name];
			return { version: Number(name.slice(0, 4)), name, sql, ...(then && { then }) };
		})
		.sort((a, b) => a.version - b.version);
	migrations.forEach(({ version, name }, index) => {
		if (version !== index + 1) throw new Error(`migration ${name} should be number ${index + 1}`);
	});
	return migrations;
}

/** The migrations of this program. */
export const migrations = migrationsFrom(
	import.meta.glob<string>('./migrations/*.sql', { query: '?raw', import: 'default', eager: true }),
	{ '0003-record-chain': sealExistingChanges }
);
