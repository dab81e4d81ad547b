import type { Database } from './open';

/** What long work found, kept until it is adopted or discarded. */
export interface ProposalRow {
	/** From 1 within a rollout. */
	readonly number: number;
	/** The question that it answers: `plan`. */
	readonly answer: string;
	readonly params: unknown;
	/** The revision of the document that it was worked out for. */
	readonly revision: string;
	/** Instant, ISO 8601 in UTC. */
	readonly at: string;
	readonly who: string;
	/** It was stopped, and this is the best until then. */
	readonly isStoppedEarly: boolean;
	readonly seconds: number;
	/** The number of the change by which it was adopted. */
	readonly adoptedBy: number | null;
}

export interface Proposal extends ProposalRow {
	/** The answer itself. */
	readonly value: unknown;
}

type Raw = Omit<ProposalRow, 'params' | 'isStoppedEarly'> & { readonly params: string; readonly stoppedEarly: number };

const columns = `number, answer, params, revision, at, who, stopped_early AS stoppedEarly, seconds, adopted_by AS adoptedBy`;

/** Proposals of rollouts. */
export class ProposalRepository {
	readonly #db: Database;

	constructor(db: Database) {
		this.#db = db;
	}

	/** The latest first. */
	list(rollout: string): readonly ProposalRow[] {
		return this.#db
			.prepare<[string], Raw>(`SELECT ${columns} FROM proposal WHERE rollout = ? ORDER BY number DESC`)
			.all(rollout)
			.map(complete);
	}

	find(rollout: string, number: number): Proposal | undefined {
		const row = this.#db
			.prepare<[string, number], Raw & { body: string }>(
				`SELECT ${columns}, body FROM proposal WHERE rollout = ? AND number = ?`
			)
			.get(rollout, number);
		if (!row) return undefined;
		const { body, ...rest } = row;
		return { ...complete(rest), value: JSON.parse(body) as unknown };
	}

	/** Keeps a proposal and gives its number. */
	add(rollout: string, proposal: Omit<Proposal, 'number' | 'adoptedBy'>): number {
		return this.#db
			.prepare<unknown[], number>(
				`INSERT INTO proposal (rollout, number, answer, params, revision, at, who, stopped_early, seconds, body)
				VALUES (?, (SELECT coalesce(max(number), 0) + 1 FROM proposal WHERE rollout = ?), ?, ?, ?, ?, ?, ?, ?, ?)
				RETURNING number`
			)
			.pluck()
			.get(
				rollout,
				rollout,
				proposal.answer,
				JSON.stringify(proposal.params ?? null),
				proposal.revision,
				proposal.at,
				proposal.who,
				proposal.isStoppedEarly ? 1 : 0,
				proposal.seconds,
				JSON.stringify(proposal.value)
			) as number;
	}

	setAdopted(rollout: string, number: number, change: number): void {
		this.#db
			.prepare('UPDATE proposal SET adopted_by = ? WHERE rollout = ? AND number = ?')
			.run(change, rollout, number);
	}

	/** Removes proposals beyond the latest `keep`, except those adopted. */
	trim(rollout: string, keep: number): void {
		this.#db
			.prepare(
				`DELETE FROM proposal WHERE rollout = ? AND adopted_by IS NULL AND number NOT IN
				(SELECT number FROM proposal WHERE rollout = ? ORDER BY number DESC LIMIT ?)`
			)
			.run(rollout, rollout, keep);
	}

	remove(rollout: string, number: number): boolean {
		return this.#db.prepare('DELETE FROM proposal WHERE rollout = ? AND number = ?').run(rollout, number).changes === 1;
	}
}

function complete({ params, stoppedEarly, ...row }: Raw): ProposalRow {
	return { ...row, params: JSON.parse(params) as unknown, isStoppedEarly: stoppedEarly === 1 };
}
