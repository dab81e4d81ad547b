import {
	type RecordedChange,
	redactedChange,
	redactionDigest,
	redactionHashOf,
	removalEdit
} from '../../core/document/record-chain';
import type { TextNeedles } from '../../core/kernel/text-needles';
import type { Database } from './open';
import { quickHash, readChanges } from './record-seals';

/** Tells whether a text of the store is about people who are removed. */
export interface Mentions {
	readonly people: ReadonlySet<string>;
	/** Their names, numbers and addresses, as whole words. */
	readonly needles: TextNeedles;
	/** Numbers too short to be looked for as words: only as whole values. */
	readonly short: ReadonlySet<string>;
}

/** What a removal touches beside the document, in numbers. */
export interface Touched {
	readonly changes: number;
	readonly proposals: number;
	readonly issues: number;
	readonly providerUsers: number;
}

/** True when a text, JSON or not, is about any of the people. */
export function mentions({ needles, short }: Mentions, text: string): boolean {
	if (needles.isIn(text)) return true;
	if (short.size === 0) return false;
	for (const [, value] of text.matchAll(/"((?:[^"\\]|\\.)*)"/g)) if (short.has(value ?? '')) return true;
	return false;
}

/** Earlier ids, names and addresses of people, from the record of what stood in their entries. */
export function earlierNames(
	db: Database,
	rollout: string,
	people: ReadonlySet<string>,
	pieces: ReadonlySet<number>
): string[] {
	const rows = db
		.prepare<[string], { number: number; before: string | null; after: string | null }>(
			`SELECT number, body_before AS before, body_after AS after FROM change_piece
			WHERE rollout = ? AND path = 'people' AND number > 0`
		)
		.all(rollout);
	return rows.flatMap(({ number, before, after }) =>
		[before, after].flatMap((body) => {
			if (body === null) return [];
			const { id, name, email } = JSON.parse(body) as Record<string, unknown>;
			if (!pieces.has(number) && !people.has(String(id))) return [];
			return [id, name, email].filter((one): one is string => typeof one === 'string');
		})
	);
}

/** What would be touched. */
export function countTouched(db: Database, rollout: string, about: Mentions): Touched {
	return {
		changes: changesAbout(db, rollout, about).length,
		proposals: count(db, 'proposal', rollout),
		issues: issuesAbout(db, rollout, about).length,
		providerUsers: usersAbout(db, rollout, about).length
	};
}

/**
 * Takes people out of everything that the store keeps beside the document: the content of changes about them (the seals stay, so
 * that the chain holds), proposals, issued documents, what identity providers sent, and names elsewhere. Within a transaction; gives
 * the digest that the change which removes them must hold. `by`: the number of that change.
 */
export function takeOut(db: Database, rollout: string, about: Mentions, by: number, at: string): string {
	const emptyChange = db.prepare(
		"UPDATE change SET who = '', what = ?, params = 'null' WHERE rollout = ? AND number = ?"
	);
	const emptyPieces = db.prepare('DELETE FROM change_piece WHERE rollout = ? AND change = ?');
	const note = db.prepare(
		'UPDATE change_seal SET redacted_by = ?, redacted_content = ? WHERE rollout = ? AND number = ?'
	);
	const left = changesAbout(db, rollout, about).map((change) => {
		const redacted = redactedChange(change, wordsFor(change));
		emptyPieces.run(rollout, change.number);
		emptyChange.run(redacted.what, rollout, change.number);
		const content = redactionHashOf(redacted, quickHash);
		note.run(by, content, rollout, change.number);
		return { number: change.number, content };
	});
	db.prepare('DELETE FROM proposal WHERE rollout = ?').run(rollout);
	for (const number of issuesAbout(db, rollout, about)) {
		db.prepare(
			`UPDATE issue SET withdrawn_at = coalesce(withdrawn_at, ?), withdrawn_by = coalesce(withdrawn_by, 'removal of people'),
			document = NULL WHERE rollout = ? AND number = ?`
		).run(at, rollout, number);
	}
	for (const number of usersAbout(db, rollout, about)) {
		db.prepare(
			`UPDATE scim_user SET body = NULL, person = 'removed-' || number, ended_on = NULL, version = version + 1,
			set_aside = version + 1 WHERE rollout = ? AND number = ?`
		).run(rollout, number);
	}
	for (const [table, column, empty] of namesElsewhere) {
		const rows = db
			.prepare<[string], { at: number | string; text: string | null }>(
				`SELECT ${table === 'rollout' ? 'id' : 'number'} AS at, ${column} AS text FROM ${table} WHERE ${table === 'rollout' ? 'id' : 'rollout'} = ?`
			)
			.all(rollout);
		const put = db.prepare(
			table === 'rollout'
				? `UPDATE rollout SET ${column} = ? WHERE id = ?`
				: `UPDATE ${table} SET ${column} = ? WHERE rollout = ? AND number = ?`
		);
		for (const row of rows) {
			if (row.text === null || !mentions(about, row.text)) continue;
			if (table === 'rollout') put.run(empty, rollout);
			else put.run(empty, rollout, row.at);
		}
	}
	return redactionDigest(left, quickHash);
}

/** Columns of words in which a name may stand, and what stands there instead. */
const namesElsewhere: readonly (readonly [table: string, column: string, empty: string])[] = [
	['rollout', 'removed_by', ''],
	['issue', 'who', ''],
	['issue', 'note', 'Note taken out when people were removed'],
	['issue', 'withdrawn_by', ''],
	['scim_token', 'label', 'Label taken out'],
	['scim_token', 'created_by', ''],
	['scim_token', 'revoked_by', ''],
	['copy', 'who', ''],
	['copy', 'file', '']
];

/** Changes whose content is about the people; those emptied before and removals themselves have none. */
function changesAbout(db: Database, rollout: string, about: Mentions): RecordedChange[] {
	const emptied = new Set(
		db
			.prepare<[string], number>('SELECT number FROM change_seal WHERE rollout = ? AND redacted_by IS NOT NULL')
			.pluck()
			.all(rollout)
	);
	return readChanges(db, rollout).filter(
		(change) =>
			change.edit !== removalEdit &&
			!emptied.has(change.number) &&
			[
				change.who,
				change.what,
				change.params,
				...change.pieces.flatMap(({ bodyBefore, bodyAfter }) => [bodyBefore ?? '', bodyAfter ?? ''])
			].some((text) => mentions(about, text))
	);
}

function issuesAbout(db: Database, rollout: string, about: Mentions): number[] {
	return db
		.prepare<[string], { number: number; document: string }>(
			'SELECT number, document FROM issue WHERE rollout = ? AND document IS NOT NULL'
		)
		.all(rollout)
		.flatMap(({ number, document }) => (mentions(about, document) ? [number] : []));
}

function usersAbout(db: Database, rollout: string, about: Mentions): number[] {
	return db
		.prepare<[string], { number: number; person: string; body: string | null }>(
			'SELECT number, person, body FROM scim_user WHERE rollout = ?'
		)
		.all(rollout)
		.flatMap(({ number, person, body }) =>
			about.people.has(person) || mentions(about, person) || (body !== null && mentions(about, body)) ? [number] : []
		);
}

function count(db: Database, table: string, rollout: string): number {
	return db.prepare<[string], number>(`SELECT count(*) FROM ${table} WHERE rollout = ?`).pluck().get(rollout) ?? 0;
}

/** What happened, without who: the kind of change and the lists that it touched. */
function wordsFor({ edit, pieces }: RecordedChange): string {
	const lists = [...new Set(pieces.map(({ path }) => path))].sort();
	return `${edit}${lists.length === 0 ? '' : ` in ${lists.join(', ')}`}; content taken out when people were removed`;
}
