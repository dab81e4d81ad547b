import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { coverSheets } from '../../src/lib/components/sheet/cover-sheets';
import { sheets } from '../../src/lib/components/sheet/sheets';
import { answerNames } from '../../src/lib/core/answers';
import { checks } from '../../src/lib/core/checks';
import { edits } from '../../src/lib/core/edits';
import { exportsByName } from '../../src/lib/core/exports';
import { rulePacks } from '../../src/lib/core/privacy/packs';
import { openApi } from '../../src/lib/server/api/openapi';
import { load as commandLine } from '../../src/routes/help/command-line/+page.server';
import { load as findings } from '../../src/routes/help/findings/+page.server';
import { load as packs } from '../../src/routes/help/rule-packs/+page.server';
import { root } from '../../src/tools/run.mjs';

// What is there is told where people look for it, and what is told is there.

const read = (file: string) => readFileSync(path.join(root, file), 'utf8');
const readme = read('README.md');
const developers = read('DEVELOPERS.md');
const both = readme + developers;

/** What a help sheet is made from, as text. The sheets take nothing from the request. */
async function shownBy(load: (event: never) => unknown): Promise<string> {
	return JSON.stringify(await load({} as never));
}

/** Text between backticks, outside of blocks. */
const quoted = (text: string) =>
	[...text.replaceAll(/```[\s\S]*?```/g, '').matchAll(/`([^`\n]+)`/g)].map(([, words = '']) => words);

/** How many files of a folder of a registry define an entry. */
function entriesIn(folder: string): string[] {
	return readdirSync(path.join(root, 'src/lib/core', folder))
		.filter((file) => /^(?!index|define-)[\w-]+\.ts$/.test(file))
		.map((file) => file.replace(/\.ts$/, ''));
}

describe('what is there is told', () => {
	it.each(answerNames)('the question %s in README.md and among the commands of the help', async (name) => {
		expect(readme).toContain(`npm run -s doorwright -- ${name} `);
		expect(await shownBy(commandLine)).toContain(`"name":"${name}"`);
	});

	it('every finding on its help sheet, and every grave one by a case in the demo', async () => {
		const shown = await shownBy(findings);
		const demo = read('demo-data/README.md');
		expect([...checks.keys()].sort()).toEqual(entriesIn('checks').sort());
		for (const { code, severity } of checks.values()) {
			expect(shown).toContain(`"code":"${code}"`);
			if (severity === 'error') expect(demo).toContain(`| \`${code}\` |`);
		}
	});

	it('every change in the description of the API', async () => {
		const { paths } = await openApi('0');
		expect([...edits.keys()].sort()).toEqual(entriesIn('edits').sort());
		for (const name of edits.keys()) expect(paths).toHaveProperty([`/rollouts/{rollout}/edits/${name}`]);
	});

	it('every rule pack on its help sheet', async () => {
		const shown = await shownBy(packs);
		expect([...rulePacks.keys()].sort()).toEqual(entriesIn('privacy/packs').sort());
		for (const id of rulePacks.keys()) expect(shown).toContain(`"id":"${id}"`);
	});

	it('every export with what it is for', () => {
		expect([...exportsByName.keys()].sort()).toEqual(entriesIn('exports').sort());
		for (const { title, summary } of exportsByName.values()) {
			expect(title).not.toBe('');
			expect(summary).toMatch(/^[A-Z].{20,}\.$/s);
		}
	});

	it('every npm script in DEVELOPERS.md', () => {
		const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
		const names = Object.keys(scripts).filter((name) => !/^(pre|post)/.test(name));
		const told = quoted(developers).flatMap((words) => /^npm (?:run )?([a-z]+)$/.exec(words)?.[1] ?? []);
		expect(new Set(told)).toEqual(new Set(names));
		for (const command of Object.values(scripts)) {
			const [, file] = /\bnode (\S+)/.exec(command) ?? [];
			if (file !== undefined) expect(existsSync(path.join(root, file)), command).toBe(true);
		}
	});

	it('every variable of the environment that people may set', () => {
		const source = ['src/tools', 'src/lib/server', 'src/cli'].flatMap((folder) =>
			readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
				.filter((file) => /(?<!\.test)\.(ts|mjs)$/.test(file))
				.map((file) => read(path.join(folder, file)))
		);
		const used = source.flatMap((text) =>
			[...text.matchAll(/process\.env\['((?:DOORWRIGHT_|PORT|CHROMIUM)\w*)'\]/g)].map(([, name = '']) => name)
		);
		expect(used).toContain('PORT');
		for (const name of new Set(used)) expect(both, name).toContain(`\`${name}\``);
	});

	it('every folder of the core on the map of DEVELOPERS.md', () => {
		const folders = readdirSync(path.join(root, 'src/lib/core'), { withFileTypes: true });
		for (const { name } of folders.filter((entry) => entry.isDirectory())) {
			expect(developers).toMatch(new RegExp(`^ {6}${name}/ `, 'm'));
		}
	});

	it('that nobody is told to rely on it alone: the cautions', () => {
		for (const words of ['authority having jurisdiction', 'Counsel', 'No legal advice', 'without a reader']) {
			expect(readme).toContain(words);
		}
		for (const words of ['MIT', 'CC BY 3.0', 'SIL Open Font License', 'date-holidays']) expect(readme).toContain(words);
	});
});

describe('what is told is there', () => {
	it('sheets by code and name', () => {
		const told = [...both.matchAll(/\*([A-Z]-\d)(?: ([^*]+))?\*/g)];
		expect(told.length).toBeGreaterThan(5);
		for (const [, code, name] of told) {
			const sheet = [...sheets, ...coverSheets].find((one) => one.code === code);
			expect(sheet, code).toBeDefined();
			if (name !== undefined) expect(sheet?.name).toBe(name);
		}
	});

	it.each(['README.md', 'DEVELOPERS.md', 'demo-data/README.md'])('every file that %s names', (file) => {
		const text = read(file);
		const links = [...text.matchAll(/\]\(([^)#:]+)\)/g)].map(([, target = '']) =>
			path.join(path.dirname(file), target)
		);
		const paths = quoted(text).filter((words) => /^(src|tests|static|demo-data)\/[\w./[\]-]+$/.test(words));
		for (const named of [...links, ...paths.filter((one) => !/\b(CODE|ID|NAME|NNNN)\b/.test(one))]) {
			expect(existsSync(path.join(root, named)), named).toBe(true);
		}
	});

	it('the commands that run one test', () => {
		const files = [...developers.matchAll(/vitest run (?:--project \w+ )?((?:src|tests)\/\S+\.test\.ts)/g)];
		expect(files.length).toBeGreaterThan(1);
		for (const [, file = ''] of files) expect(existsSync(path.join(root, file)), file).toBe(true);
	});

	it('the edits that DEVELOPERS.md sends people to', () => {
		for (const name of ['put-entry', 'remove-entry', 'rename-entry', 'set-part']) {
			expect(developers).toContain(`\`${name}\``);
			expect(edits.has(name)).toBe(true);
		}
	});
});
