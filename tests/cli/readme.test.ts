import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { prepare } from '../../src/tools/prepare.mjs';
import { root } from '../../src/tools/run.mjs';

// What README.md shows of the command line is what the command line says. Each block begins with the command after a
// dollar sign. After a wanted change: npx vitest run --project code tests/cli/readme.test.ts -u

const file = path.join(root, 'README.md');
const readme = readFileSync(file, 'utf8');
const block = /```console\n\$ (.+)\n([\s\S]*?)```/g;
const commands = [...readme.matchAll(block)].map(([, command = '', shown = '']) => ({ command, shown }));

beforeAll(() => prepare(['cli']), 300_000);

/** What a shell shows of a command in the project's folder. */
function said(command: string): { readonly text: string; readonly status: number | null } {
	const { stdout, stderr, status } = spawnSync('sh', ['-c', command], { cwd: root, encoding: 'utf8' });
	if (status === null || status > 1) throw new Error(`${command} ends with ${String(status)}:\n${stderr}`);
	return { text: stdout, status };
}

describe('README.md', () => {
	it('shows every command of the command line', () => {
		const names = [...readme.matchAll(/npm run -s doorwright -- ([a-z-]+)/g)].map(([, name]) => name);
		expect(new Set(names)).toEqual(
			new Set([
				'check',
				'access',
				'explain',
				'mend',
				'who',
				'compare',
				'compare-groups',
				'plan',
				'replan',
				'forecast',
				'outlook',
				'what-if',
				'walk-in',
				'station-time',
				'retention',
				'matching-risk',
				'person-record',
				'import-roster',
				'verify-record',
				'serve'
			])
		);
		expect(commands.length).toBeGreaterThanOrEqual(7);
	});

	it('shows what they say, word for word', async () => {
		const told = readme.replaceAll(
			block,
			(_, command: string) => `\`\`\`console\n$ ${command}\n${said(command).text.trimEnd()}\n\`\`\``
		);
		await expect(told).toMatchFileSnapshot(file);
	}, 300_000);
});
