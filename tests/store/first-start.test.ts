import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { loadDemoOnFirstStart } from '../../src/lib/server/demo';
import { eraseOutdated } from '../../src/lib/server/manage-rollouts';
import {
	deleteRollout,
	exportDocument,
	importDocument,
	listRemovedRollouts,
	listRollouts,
	restoreRollout
} from '../../src/lib/server/rollouts';
import { useDataFolder } from '../support/data-folder';
import { refusalOf, valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

let data: ReturnType<typeof useDataFolder>;
let demo: string;

beforeEach(() => {
	data = useDataFolder();
	demo = mkdtempSync(path.join(tmpdir(), 'doorwright-demo-'));
	process.env['DOORWRIGHT_DEMO'] = demo;
});
afterEach(() => {
	data.end();
	delete process.env['DOORWRIGHT_DEMO'];
	rmSync(demo, { recursive: true, force: true });
});

const put = (name: string, text: string) => writeFileSync(path.join(demo, name), text);

test('the documents of the demo are loaded on the first start, and never again', () => {
	put('b.json', JSON.stringify(smallSite({ site: { name: 'Second', timeZone: 'UTC' } })));
	put('a.json', JSON.stringify(smallSite()));
	put('columns.json', '{"columns":{}}');
	put('people.csv', 'id;name');
	expect(loadDemoOnFirstStart()).toEqual([]);
	expect(
		listRollouts()
			.map(({ id }) => id)
			.sort()
	).toEqual(['mill-lane-depot', 'second']);
	for (const { id, name } of listRollouts()) valueOf(deleteRollout(id, name, 'Nora'));
	expect(loadDemoOnFirstStart()).toEqual([]);
	expect(listRollouts()).toEqual([]);
});

test('a document that cannot be read is told and holds up no other', () => {
	put('broken.json', '{"format": "doorwright.rollout", "version": 1}');
	put('good.json', JSON.stringify(smallSite()));
	expect(loadDemoOnFirstStart()).toEqual([expect.stringMatching(/^broken\.json is not loaded: .*\$\.site/) as string]);
	expect(listRollouts()).toHaveLength(1);
});

test('nothing is loaded where there is a rollout already, or no demo', () => {
	valueOf(importDocument(JSON.stringify(smallSite()), 'Nora'));
	put('a.json', JSON.stringify(smallSite()));
	expect(loadDemoOnFirstStart()).toEqual([]);
	expect(listRollouts()).toHaveLength(1);
});

test('the demo that comes with the program can be read, and comes back unchanged', () => {
	const own = path.resolve('demo-data');
	const documents = readdirSync(own).filter(
		(name) => name.endsWith('.json') && readFileSync(path.join(own, name), 'utf8').includes('doorwright.rollout')
	);
	for (const name of documents) cpSync(path.join(own, name), path.join(demo, name));
	expect(loadDemoOnFirstStart()).toEqual([]);
	const kept = listRollouts().map(({ id }) => JSON.parse(valueOf(exportDocument(id))) as { site: { name: string } });
	const given = documents.map(
		(name) => JSON.parse(readFileSync(path.join(own, name), 'utf8')) as { site: { name: string } }
	);
	const byName = (a: { site: { name: string } }, b: { site: { name: string } }) => (a.site.name < b.site.name ? -1 : 1);
	expect(kept.sort(byName)).toEqual(given.sort(byName));
	expect(kept.length).toBeGreaterThan(0);
});

test('a deleted rollout is erased after 30 days', () => {
	const { id, name } = valueOf(importDocument(JSON.stringify(smallSite()), 'Nora'));
	valueOf(deleteRollout(id, name, 'Nora'));
	const day = 86_400_000;
	eraseOutdated(new Date(Date.now() + 29 * day));
	expect(listRemovedRollouts()).toHaveLength(1);
	eraseOutdated(new Date(Date.now() + 31 * day));
	expect(listRemovedRollouts()).toEqual([]);
	expect(refusalOf(restoreRollout(id)).why).toBe('not-found');
});
