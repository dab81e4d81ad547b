import { ESLint } from 'eslint';
import { beforeAll, describe, expect, it } from 'vitest';
import { root } from '../../src/tools/run.mjs';

// The core gives the same answer for the same document, on any machine, on any day. The lint rules that hold it to that
// are tried here, and the source is searched once more by plain text, which no setting of a linter can soften.

const impure: Record<string, RegExp> = {
	'export const x = Date.now();': /no clock/,
	'export const x = new Date();': /no clock/,
	'export const x = Date();': /no clock/,
	'export const x = new Date(2027, 0, 1);': /time zone of the machine/,
	'export const x = new Date(0).getHours();': /time zone of the machine/,
	'export const x = (1234.5).toLocaleString();': /language or time zone/,
	"export const x = 'a'.localeCompare('b');": /language or time zone/,
	'export const x = Math.random();': /seeded/,
	'export const x = crypto.randomUUID();': /seeded/,
	'export const x = performance.now();': /measures no time/,
	'setTimeout(() => undefined, 1);': /measures no time/,
	"export const x = fetch('/a');": /no input or output/,
	"export const x = process.env['HOME'];": /no input or output/,
	"export { readFileSync } from 'node:fs';": /no input or output/,
	"import fs from 'fs';\nexport const x = fs;": /no input or output/,
	"export { writable } from 'svelte/store';": /framework/,
	"export { browser } from '$app/environment';": /framework/,
	"export { default } from 'better-sqlite3';": /framework/
};

const pure = [
	'export const x = new Date(0).toISOString();',
	'export const x = new Date(0).getUTCHours();',
	'export const x = Math.max(1, 2);',
	"export { z } from 'zod';"
];

describe('the lint rules for the core', () => {
	let eslint: ESLint;
	beforeAll(() => {
		eslint = new ESLint({
			cwd: root,
			// The file below exists nowhere, so the rules that need the type checker cannot run on it.
			overrideConfig: { languageOptions: { parserOptions: { projectService: false, project: false } } },
			ruleFilter: ({ ruleId }) => ruleId.startsWith('no-restricted-')
		});
	});

	async function complaintsAbout(source: string, filePath: string): Promise<string[]> {
		const [result] = await eslint.lintText(source, { filePath });
		return (result?.messages ?? []).map(({ message }) => message);
	}

	it.each(Object.entries(impure))('refuse %j and say why', async (source, why) => {
		const complaints = await complaintsAbout(source, 'src/lib/core/kernel/tried.ts');
		expect(complaints).toHaveLength(1);
		expect(complaints[0]).toMatch(why);
	});

	it.each(pure)('allow %j', async (source) => {
		expect(await complaintsAbout(source, 'src/lib/core/kernel/tried.ts')).toEqual([]);
	});

	it('hold for the core only', async () => {
		expect(await complaintsAbout('export const x = Date.now();', 'src/lib/server/tried.ts')).toEqual([]);
	});
});

describe('the source of the core', () => {
	const sources = import.meta.glob<string>('/src/lib/core/**/*.ts', { query: '?raw', import: 'default', eager: true });
	const files = Object.entries(sources).filter(([file]) => !file.endsWith('.test.ts'));
	const traces = /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bfrom '(?:node:|svelte|\$app|\$env|better-sqlite3)/;

	it('is there', () => {
		expect(files.length).toBeGreaterThan(20);
	});

	it.each(files)('%s reads no clock, no chance and no machine', (_, source) => {
		const code = source.replace(/\/\*[\s\S]*?\*\/|(?<!:)\/\/.*/g, '');
		expect(traces.exec(code)?.[0]).toBeUndefined();
	});
});
