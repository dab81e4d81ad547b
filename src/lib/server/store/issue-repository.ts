import type { Database } from './open';

/** A revision that was issued. */
export interface IssueRow {
	/** From 1 within a rollout: 1 is revision A. */
	readonly number: number;
	/** Instant, ISO 8601 in UTC. */
	readonly at: string;
	readonly who: string;
	readonly note: string;
	/** The number of the latest change at that time. */
	readonly change: number;
	/** The revision of the document. */
	readonly revision: string;
	readonly withdrawnAt: string | null;
	readonly withdrawnBy: string | null;
}

const columns = `number, at, who, note, change, revision, withdrawn_at AS withdrawnAt, withdrawn_by AS withdrawnBy`;

/** Issued revisions of rollouts, with their documents. */
export class IssueRepository {
	readonly #db: Database;

	constructor(db: Database) {
		this.#db = db;
	}

	/** The latest first, withdrawn ones among them. */
	list(rollout: string): readonly IssueRow[] {
		return this.#db
			.prepare<[string], IssueRow>(`SELECT ${columns} FROM issue WHERE rollout = ? ORDER BY number DESC`)
			.all(rollout);
	}

	/** The text of an issued document; undefined where there is none, or it was withdrawn. */
	document(rollout: string, number: number): string | undefined {
		const text = this.#db
			.prepare<[string, number], string | null>('SELECT document FROM issue WHERE rollout = ? AND number = ?')
			.pluck()
			.get(rollout, number);
		return text ?? undefined;
	}

	/** Keeps an issue under the next number, which it gives. */
	add(
		rollout: string,
		issue: Omit<IssueRow, 'number' | 'withdrawnAt' | 'withdrawnBy'> & { readonly document: string }
	): number {
		return this.#db
			.prepare<unknown[], number>(
				`INSERT INTO issue (rollout, number, at, who, note, change, revision, document)
				VALUES (?, (SELECT coalesce(max(number), 0) + 1 FROM issue WHERE rollout = ?), ?, ?, ?, ?, ?, ?) RETURNING number`
			)
			.pluck()
			.get(rollout, rollout, issue.at, issue.who, issue.note, issue.change, issue.revision, issue.document) as number;
	}

	/** Takes an issue back: its document goes, its number stays given out. */
	withdraw(rollout: string, number: number, at: string, who: string): void {
		this.#db
			.prepare('UPDATE issue SET withdrawn_at = ?, withdrawn_by = ?, document = NULL WHERE rollout = ? AND number = ?')
			.run(at, who, rollout, number);
	}
}
