import { chmodSync, existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { ChangeRepository } from './change-repository';
import { CopyRepository } from './copy-repository';
import { DirectoryRepository } from './directory-repository';
import { IssueRepository } from './issue-repository';
import type { Migration } from './migrations';
import { type Database, openDatabase } from './open';
import type { Head, StoredRecord } from '../../core/document/verify-record';
import { type Mentions, type Touched, countTouched, earlierNames, takeOut } from './people-removal';
import { ProposalRepository } from './proposal-repository';
import { readHeadOf, readRecord } from './record-reading';
import { RolloutRepository } from './rollout-repository';

/** The database of one installation. Only this folder writes SQL. */
export class Store {
	readonly rollouts: RolloutRepository;
	readonly changes: ChangeRepository;
	readonly proposals: ProposalRepository;
	readonly issues: IssueRepository;
	readonly directory: DirectoryRepository;
	readonly copies: CopyRepository;
	readonly #db: Database;

	/** Opens (or makes) the file in a data folder; see `openDatabase` for what is refused. */
	constructor(folder: string, migrations?: readonly Migration[]) {
		// What is kept is about people: for the owner's eyes only.
		if (!existsSync(folder)) mkdirSync(folder, { recursive: true, mode: 0o700 });
		const file = path.join(folder, 'doorwright.sqlite');
		this.#db = openDatabase(file, migrations);
		chmodSync(file, 0o600);
		this.rollouts = new RolloutRepository(this.#db);
		this.changes = new ChangeRepository(this.#db);
		this.proposals = new ProposalRepository(this.#db);
		this.issues = new IssueRepository(this.#db);
		this.directory = new DirectoryRepository(this.#db);
		this.copies = new CopyRepository(this.#db);
	}

	/** Does everything or, when it throws, nothing; takes the lock for writing at once. */
	inTransaction<T>(work: () => T): T {
		return this.#db.transaction(work).immediate();
	}

	/** The change record of a rollout as it is stored, to be verified; undefined where there is no such rollout. */
	record(rollout: string): StoredRecord | undefined {
		return readRecord(this.#db, rollout);
	}

	/** The seal of the latest change. */
	head(rollout: string): Head | undefined {
		return readHeadOf(this.#db, rollout);
	}

	/** A fact about this installation. */
	fact(key: string): string | undefined {
		return this.#db.prepare<[string], string>('SELECT value FROM installation WHERE key = ?').pluck().get(key);
	}

	setFact(key: string, value: string): void {
		this.#db
			.prepare(
				'INSERT INTO installation (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value'
			)
			.run(key, value);
	}

	/** Earlier ids, names and addresses of people; `pieces`: the numbers of their entries. */
	earlierNames(rollout: string, people: ReadonlySet<string>, pieces: ReadonlySet<number>): string[] {
		return earlierNames(this.#db, rollout, people, pieces);
	}

	/** What removing people would touch beside the document. */
	touchedBy(rollout: string, about: Mentions): Touched {
		return countTouched(this.#db, rollout, about);
	}

	/** Takes people out of all that is kept beside the document; within a transaction. Gives the digest for the record. */
	takeOut(rollout: string, about: Mentions, by: number, at: string): string {
		return takeOut(this.#db, rollout, about, by, at);
	}

	/**
	 * Writes the file anew without what was deleted, and empties the journal. False when another program reads the file right now:
	 * then the journal is emptied when it ends.
	 */
	wipe(): boolean {
		this.#db.exec('VACUUM');
		const [result] = this.#db.pragma('wal_checkpoint(TRUNCATE)') as { busy: number }[];
		return result?.busy === 0;
	}

	close(): void {
		this.#db.close();
	}
}
