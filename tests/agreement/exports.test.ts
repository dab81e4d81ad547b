import ICAL from 'ical.js';
import Papa from 'papaparse';
import { readSheet } from 'read-excel-file/node';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { listsByName } from '../../src/lib/core/exports/lists';
import type { Fault } from '../../src/lib/core/kernel/fault';
import { needList, rememberChoice, rememberedChoice } from '../../src/lib/server/lists';
import { getRollout } from '../../src/lib/server/rollouts';
import { call, responseOf } from '../support/api';
import { useDataFolder } from '../support/data-folder';
import { valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

const at = '/api/v1/rollouts/mill-lane-depot';
const document = smallSite();
let data: ReturnType<typeof useDataFolder>;
beforeEach(async () => {
	data = useDataFolder();
	const headers = { 'content-type': 'application/json' };
	await call('POST', '/api/v1/rollouts', { body: JSON.stringify(document), headers });
});
afterEach(() => data.end());

const get = (path: string) => call('GET', `${at}/${path}`);
const pathsOf = (json: unknown) => (json as { faults: Fault[] }).faults.map(({ path }) => path);

test('the API lists every export, and each of its files can be fetched', async () => {
	const { exports } = (await get('exports')).json as {
		exports: { name: string; files: { name: string; type: string }[] }[];
	};
	const files = exports.flatMap(({ name, files }) => files.map((file) => ({ export: name, ...file })));
	expect(files.map(({ name }) => name)).toContain('open-model-report.json');
	for (const file of files) {
		const fetched = await get(`exports/${file.export}/${encodeURIComponent(file.name)}`);
		expect(fetched.status, file.name).toBe(200);
		expect(fetched.headers.get('content-type')).toBe(
			file.type === 'application/zip' ? file.type : `${file.type}; charset=utf-8`
		);
		if (file.type === 'text/calendar') expect(() => void ICAL.parse(fetched.text)).not.toThrow();
	}
	expect(pathsOf((await get('exports/open-modle/x.json')).json)).toEqual(['$.export']);
	expect(pathsOf((await get('exports/open-model/x.json')).json)).toEqual(['$.file']);
});

test('the API gives a list with the columns asked for, and refuses others with the nearest', async () => {
	const { lists } = (await get('lists')).json as { lists: { name: string; columns: { key: string }[] }[] };
	expect(lists.map(({ name }) => name)).toEqual([...listsByName.keys()]);
	for (const { name } of lists) expect((await get(`lists/${name}`)).status, name).toBe(200);
	const csv = await get('lists/people?column=name&column=id&delimiter=semicolon');
	const { data: rows } = Papa.parse<string[]>(csv.text.replace(/^\ufeff/, ''), {
		delimiter: ';',
		skipEmptyLines: true
	});
	expect(rows).toEqual([['Name', 'Staff number'], ...(document.people ?? []).map(({ id, name }) => [name ?? '', id])]);
	const wrong = await get('lists/people?column=nmae&format=csv');
	expect([wrong.status, pathsOf(wrong.json)]).toEqual([422, ['$.columns[0]']]);
	expect(pathsOf((await get('lists/people?format=pdf')).json)).toEqual(['$.format']);
	expect(pathsOf((await get('lists/poeple')).json)).toEqual(['$.list']);
});

test('a workbook of the API is read by an independent reader', async () => {
	const sent = await responseOf('GET', `${at}/lists/people?column=id&format=xlsx`);
	const read = await readSheet(Buffer.from(await sent.arrayBuffer()));
	expect(read).toEqual([['Staff number'], ...(document.people ?? []).map(({ id }) => [id])]);
});

test('a choice of columns is remembered, held against the list, and forgotten when asked', () => {
	const open = getRollout('mill-lane-depot');
	const list = valueOf(needList('people'));
	if (!open) throw new Error('the rollout is there');
	expect(rememberedChoice(open, list).isFirst).toBe(true);
	valueOf(rememberChoice(open, list, { columns: ['wave', 'id'], format: 'xlsx', delimiter: 'tab' }));
	expect(rememberedChoice(open, list)).toEqual({
		columns: ['wave', 'id'],
		format: 'xlsx',
		delimiter: 'tab',
		isFirst: false
	});
	expect(rememberedChoice(open, valueOf(needList('doors'))).isFirst).toBe(true);
	expect(rememberChoice(open, list, { columns: ['no'], format: 'csv', delimiter: 'tab' }).ok).toBe(false);
	valueOf(rememberChoice(open, list, null));
	expect(rememberedChoice(open, list).isFirst).toBe(true);
});
