import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { shownHead } from '../../src/lib/core/document/verify-record';
import { editRollout, importDocument, recordHead, verifyRollout } from '../../src/lib/server/rollouts';
import { closeStore } from '../../src/lib/server/store/current';
import { useDataFolder } from '../support/data-folder';
import { valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';
import { type } from '../support/terminal';

let data: ReturnType<typeof useDataFolder>;
const id = 'mill-lane-depot';
beforeEach(() => {
	data = useDataFolder();
	valueOf(importDocument(JSON.stringify(smallSite()), 'Nora'));
	valueOf(editRollout(id, 'remove-entry', { collection: 'walks', at: 0 }, 'Otto'));
});
afterEach(() => data.end());

const verify = (...args: string[]) => type(['verify-record', '--data', data.folder, ...args]);

function tamper(sql: string) {
	closeStore();
	const db = new Database(path.join(data.folder, 'doorwright.sqlite'));
	db.exec(sql);
	db.close();
}

test('gives what the app gives, for every rollout', async () => {
	const second = valueOf(importDocument(JSON.stringify(smallSite()), 'Nora')).id;
	const { status, out } = await verify('--json');
	expect(status).toBe(0);
	expect(JSON.parse(out)).toEqual({ records: [id, second].map((one) => valueOf(verifyRollout(one))) });
	expect((await verify('--rollout', id)).out).toMatch(
		/^mill-lane-depot: 2 changes, head 2 · .*\n {2}The record fits\.\n$/
	);
});

test('ends with status 1 and tells the place where a record was altered', async () => {
	tamper("UPDATE change SET who = 'Nora' WHERE number = 2");
	const { status, out } = await verify();
	expect(status).toBe(1);
	expect(out).toContain('Change 2: who made it');
});

test('holds a record to a head that was printed', async () => {
	const head = recordHead(id);
	if (!head) throw new Error('the record has a head');
	expect((await verify('--rollout', id, '--head', shownHead(head))).status).toBe(0);
	const { status, out } = await verify('--rollout', id, `--head=1:${head.hash}`);
	expect([status, out.includes('does not have the seal that was printed')]).toEqual([1, true]);
});

test('refuses what it cannot use, every fault in one go', async () => {
	const refused = await verify('site.json', '--head', 'twelve');
	expect(refused.status).toBe(2);
	for (const words of ['--data', '--head', '--rollout']) expect(refused.err).toContain(words);
	expect((await verify('--rollout', 'mill-lane-depo')).err).toContain('mill-lane-depot');
	expect((await type(['verify-record', '--data', path.join(data.folder, 'none')])).err).toContain('doorwright.sqlite');
	tamper('DROP TABLE change_seal');
	expect((await verify()).err).toContain('sealed records');
});
