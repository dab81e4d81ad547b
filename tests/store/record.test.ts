import { createHash } from 'node:crypto';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { shownHead } from '../../src/lib/core/document/verify-record';
import { forgetAll } from '../../src/lib/server/open-rollouts';
import {
	editRollout,
	importDocument,
	issueRollout,
	listChanges,
	recordHead,
	redo,
	undo,
	verifyRollout,
	withdrawIssue
} from '../../src/lib/server/rollouts';
import { closeStore } from '../../src/lib/server/store/current';
import { useDataFolder } from '../support/data-folder';
import { refusalOf, valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

let data: ReturnType<typeof useDataFolder>;
let id: string;

beforeEach(() => {
	data = useDataFolder();
	id = valueOf(importDocument(JSON.stringify(smallSite()), 'Nora')).id;
	for (const name of ['Front door', 'Gate', 'North door']) rename(name);
	valueOf(undo(id, 'Otto'));
	valueOf(redo(id, 'Otto'));
});
afterEach(() => data.end());

function rename(name: string) {
	const entry = { id: 'main', name, from: 'street', to: 'lobby', controller: 'c1' };
	valueOf(editRollout(id, 'put-entry', { collection: 'doors', at: 'main', entry }, 'Nora'));
}

/** Does to the file what somebody with another program could do to it. */
function tamper(...statements: readonly string[]): void {
	closeStore();
	forgetAll();
	const db = new Database(path.join(data.folder, 'doorwright.sqlite'));
	db.pragma('foreign_keys = OFF');
	for (const sql of statements) db.exec(sql);
	db.close();
}

const breaks = (head?: string) =>
	valueOf(verifyRollout(id, head)).breaks.map(({ code, change }) => `${code} ${change}`);

test('a record that nobody touched fits, to its end', () => {
	const verified = valueOf(verifyRollout(id));
	expect(verified).toMatchObject({ rollout: id, changes: 6, breaks: [], clockSetBack: [] });
	expect(verified.head).toEqual(recordHead(id));
	expect(valueOf(listChanges(id))[0]?.seal).toBe(verified.head?.hash);
});

test('every seal is the SHA-256 of sorted JSON without spaces, worked out here without the program', () => {
	closeStore();
	const db = new Database(path.join(data.folder, 'doorwright.sqlite'), { readonly: true });
	const all = <T>(sql: string) => db.prepare<[], T>(sql).all();
	const sha = (text: string) => createHash('sha256').update(text).digest('hex');
	const [rollout] = all<{ id: string; created_at: string }>('SELECT * FROM rollout');
	let previous = sha(
		`{"createdAt":"${rollout?.created_at}","format":"doorwright.record","rollout":"${rollout?.id}","version":1}`
	);
	const j = JSON.stringify;
	type Row = Record<string, string | number | null>;
	const seals = all<Row>('SELECT * FROM change_seal ORDER BY number');
	for (const [at, row] of all<Row>('SELECT * FROM change ORDER BY number').entries()) {
		const seal = seals[at];
		const pieces = all<Row>(`SELECT * FROM change_piece WHERE change = ${row['number']} ORDER BY path, number`).map(
			(piece) =>
				`{"bodyAfter":${j(piece['body_after'])},"bodyBefore":${j(piece['body_before'])},"number":${j(piece['number'])},` +
				`"path":${j(piece['path'])},"positionAfter":${j(piece['position_after'])},"positionBefore":${j(piece['position_before'])}}`
		);
		const content = sha(
			`{"params":${j(row['params'])},"pieces":[${pieces.join(',')}],"salt":${j(seal?.['salt'])},` +
				`"what":${j(row['what'])},"who":${j(row['who'])}}`
		);
		expect(seal?.['content']).toBe(content);
		previous = sha(
			`{"at":${j(row['at'])},"content":"${content}","edit":${j(row['edit'])},"number":${j(row['number'])},` +
				`"previous":"${previous}","revision":${j(row['revision'])},"undoes":${j(row['undoes'])}}`
		);
		expect(seal?.['hash']).toBe(previous);
	}
	expect(seals).toHaveLength(6);
	expect(new Set(seals.map((seal) => seal['salt'])).size).toBe(6);
	db.close();
});

describe('an attempt to alter the record is found and located', () => {
	test.each([
		['who made a change', "UPDATE change SET who = 'Otto' WHERE number = 3", ['content-altered 3']],
		['what it is called', "UPDATE change SET what = 'Door gate changed' WHERE number = 4", ['content-altered 4']],
		['its values', `UPDATE change SET params = '{"a":1}' WHERE number = 2`, ['content-altered 2']],
		['its time', "UPDATE change SET at = '2020-01-01T00:00:00.000Z' WHERE number = 3", ['entry-altered 3']],
		['what it takes back', 'UPDATE change SET undoes = 2 WHERE number = 5', ['entry-altered 5']],
		['a piece before it', `UPDATE change_piece SET body_before = '{}' WHERE change = 3`, ['content-altered 3']],
		['a piece after it', 'UPDATE change_piece SET body_after = NULL WHERE change = 4', ['content-altered 4']],
		[
			'a piece, into what is no JSON',
			"UPDATE change_piece SET body_after = '{' WHERE change = 4",
			['content-altered 4']
		],
		['its pieces, all', 'DELETE FROM change_piece WHERE change = 2', ['content-altered 2']],
		['its salt', "UPDATE change_seal SET salt = '00' WHERE number = 4", ['content-altered 4']],
		['its seal', 'UPDATE change_seal SET hash = content WHERE number = 4', ['entry-altered 4', 'order-broken 5']],
		['when the rollout was made', "UPDATE rollout SET created_at = '2020-01-01'", ['order-broken 1']]
	])('altered: %s', (_, sql, expected) => {
		tamper(sql);
		expect(breaks()).toEqual(expected);
	});

	test('removed: a change in the middle, with and without its seal', () => {
		const row = 'DELETE FROM change_piece WHERE change = 3; DELETE FROM change WHERE number = 3;';
		tamper(row);
		expect(breaks()).toEqual(['change-missing 3']);
		tamper('DELETE FROM change_seal WHERE number = 3');
		expect(breaks()).toEqual(['change-missing 3', 'order-broken 4']);
	});

	test('removed: the later numbered down after it, so that there is no gap', () => {
		tamper(
			'DELETE FROM change_piece WHERE change = 3; DELETE FROM change WHERE number = 3; DELETE FROM change_seal WHERE number = 3',
			'UPDATE change SET number = number - 1, undoes = undoes - 1 WHERE number > 3',
			'UPDATE change_piece SET change = change - 1 WHERE change > 3',
			'UPDATE change_seal SET number = number - 1 WHERE number > 3',
			'UPDATE rollout SET last_change = last_change - 1'
		);
		expect(breaks()).toEqual(['entry-altered 3', 'order-broken 3', 'entry-altered 4', 'entry-altered 5']);
	});

	test('removed: the last ones, with the note of the rollout set back too', () => {
		const printed = recordHead(id);
		tamper(
			'DELETE FROM change_piece WHERE change > 3; DELETE FROM change WHERE number > 3; DELETE FROM change_seal WHERE number > 3'
		);
		expect(breaks()).toEqual(['end-differs 3', 'document-differs 3']);
		tamper('UPDATE rollout SET last_change = 3, revision = (SELECT revision FROM change WHERE number = 3)');
		expect(breaks()).toEqual(['document-differs 3']);
		expect(printed && breaks(shownHead(printed))).toEqual(['document-differs 3', 'head-differs 6']);
	});

	test('put in: a change without a seal, between others or at the end', () => {
		const put = (number: number) =>
			`INSERT INTO change SELECT rollout, ${number}, at, who, 'Never happened', edit, params, revision, NULL FROM change WHERE number = 6`;
		tamper(put(7), 'UPDATE rollout SET last_change = 7');
		expect(breaks()).toEqual(['seal-missing 7']);
		tamper('DELETE FROM change WHERE number = 7; UPDATE rollout SET last_change = 6', put(0));
		expect(breaks()).toContain('seal-missing 0');
		tamper('DELETE FROM change WHERE number = 0', put(9_007_199_254_740_000));
		expect(breaks()).toEqual(
			expect.arrayContaining(['change-missing 7', 'seal-missing 9007199254740000', 'end-differs 9007199254740000'])
		);
	});

	test('moved: two changes with their numbers exchanged, with and without their seals', () => {
		const swap = (table: string, column: string) =>
			[
				[3, 99],
				[4, 3],
				[99, 4]
			].map(([from, to]) => `UPDATE ${table} SET ${column} = ${to} WHERE ${column} = ${from}`);
		tamper(...swap('change', 'number'), ...swap('change_piece', 'change'));
		expect(breaks()).toEqual(['content-altered 3', 'entry-altered 3', 'content-altered 4', 'entry-altered 4']);
		tamper(...swap('change_seal', 'number'));
		expect(breaks()).toEqual([
			'entry-altered 3',
			'order-broken 3',
			'entry-altered 4',
			'order-broken 4',
			'order-broken 5'
		]);
	});

	test('the document altered past the record', () => {
		tamper(`UPDATE piece SET body = '{"id":"w1","name":"Other"}' WHERE path = 'enrollment.waves' AND position = 0`);
		expect(breaks()).toEqual(['document-differs 6']);
	});

	test('a change made after the alteration does not heal it', () => {
		tamper("UPDATE change SET who = 'Otto' WHERE number = 3", 'DELETE FROM change_seal WHERE number = 6');
		rename('East door');
		expect(breaks()).toEqual(['content-altered 3', 'seal-missing 6', 'order-broken 7']);
	});
});

describe('an issued revision', () => {
	beforeEach(() => {
		valueOf(issueRollout(id, 'For the electrician', 'Nora'));
		rename('East door');
		valueOf(issueRollout(id, 'Doors named', 'Nora'));
	});

	test('fits, also when it was withdrawn', () => {
		expect(breaks()).toEqual([]);
		valueOf(withdrawIssue(id, 'A', 'Nora'));
		expect(breaks()).toEqual([]);
	});

	test.each([
		['its document', "UPDATE issue SET document = replace(document, 'North door', 'Back door') WHERE number = 1", 6],
		['the document of another', 'UPDATE issue SET document = (SELECT document FROM issue WHERE number = 2)', 6],
		['its revision', 'UPDATE issue SET revision = (SELECT revision FROM change WHERE number = 2) WHERE number = 1', 6],
		['the change that it is of', 'UPDATE issue SET change = 3 WHERE number = 1', 3],
		['its row', 'DELETE FROM issue WHERE number = 1', 0]
	])('is found and located when somebody altered %s', (_, sql, change) => {
		tamper(sql);
		expect(breaks()).toEqual([`issue-altered ${change}`]);
		expect(valueOf(verifyRollout(id)).breaks[0]?.message).toMatch(/^Revision A/);
	});
});

describe('a printed head', () => {
	test('is found in the record later, short or whole', () => {
		const head = recordHead(id);
		if (!head) throw new Error('the record has a head');
		rename('East door');
		expect(breaks(shownHead(head))).toEqual([]);
		expect(breaks(`${head.number}:${head.hash}`)).toEqual([]);
		expect(breaks(`${head.number - 1} · ${head.hash}`)).toEqual(['head-differs 5']);
	});

	test('that is none is refused with an example', () => {
		for (const text of ['12', '12 abc', 'abcdef0123', '12 · abcdef012z'])
			expect(refusalOf(verifyRollout(id, text))).toMatchObject({ why: 'invalid', paths: ['$.head'] });
		expect(refusalOf(verifyRollout('nowhere'))).toMatchObject({ why: 'not-found' });
	});

	test('tells when the whole chain was written anew, which else fits', async () => {
		const head = recordHead(id);
		tamper("UPDATE change SET who = 'Otto' WHERE number = 1", 'DELETE FROM change_seal');
		const { sealExistingChanges } = await import('../../src/lib/server/store/record-seals');
		const db = new Database(path.join(data.folder, 'doorwright.sqlite'));
		sealExistingChanges(db);
		db.close();
		expect(breaks()).toEqual([]);
		expect(head && breaks(shownHead(head))).toEqual(['head-differs 6']);
	});
});

test('a clock that was set back is told, and breaks nothing', async () => {
	const { vi } = await import('vitest');
	vi.useFakeTimers({ now: new Date(Date.now() - 86_400_000), toFake: ['Date'] });
	try {
		rename('East door');
	} finally {
		vi.useRealTimers();
	}
	expect(valueOf(verifyRollout(id))).toMatchObject({ breaks: [], clockSetBack: [{ change: 7 }] });
});
