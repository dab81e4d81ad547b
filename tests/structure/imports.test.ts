import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root } from '../../src/tools/run.mjs';

// The lint rule on the direction of imports, run as `npm run lint` runs it, on a small tree made to break it. A rule that
// silently stopped to hold would pass on the real tree for ever.

/** Files of the tree by what they import, and the rules that this breaks. */
const tree: Record<string, { imports: string[]; breaks: string[]; source?: string }> = {
	'src/lib/core/kernel/leaf.ts': { imports: [], breaks: [] },
	'src/lib/core/kernel/knows-right.ts': { imports: ['../calendar/day'], breaks: ['core-order-kernel'] },
	'src/lib/core/calendar/day.ts': { imports: ['../kernel/leaf'], breaks: [] },
	'src/lib/core/calendar/knows-right.ts': { imports: ['$lib/core/answers/ask'], breaks: ['core-order-calendar'] },
	'src/lib/core/document/knows-right.ts': { imports: ['../access/may'], breaks: ['core-order-document'] },
	'src/lib/core/access/may.ts': { imports: ['../calendar/day', '../kernel/leaf'], breaks: [] },
	'src/lib/core/access/knows-right.ts': { imports: ['../privacy/state'], breaks: ['core-order-access'] },
	'src/lib/core/privacy/state.ts': { imports: ['../access/may', './own'], breaks: [] },
	'src/lib/core/privacy/own.ts': { imports: [], breaks: [] },
	'src/lib/core/enrollment/knows-sibling.ts': { imports: ['../privacy/state'], breaks: ['core-siblings'] },
	'src/lib/core/roster/knows-right.ts': {
		imports: ['../edits/change'],
		breaks: ['core-order-enrollment-privacy-roster']
	},
	'src/lib/core/edits/change.ts': { imports: ['../roster/knows-nothing'], breaks: [] },
	'src/lib/core/roster/knows-nothing.ts': { imports: [], breaks: [] },
	'src/lib/core/checks/knows-right.ts': {
		imports: ['../answers/ask'],
		breaks: ['core-order-checks-readiness-edits-exports']
	},
	'src/lib/core/mends/knows-right.ts': { imports: ['../edits/change', '../answers/ask'], breaks: ['core-order-mends'] },
	'src/lib/core/answers/ask.ts': { imports: ['../edits/change'], breaks: [] },
	'src/lib/core/answers/only-a-type.ts': {
		source: "import type { x } from '../../server/store';\nexport type Y = typeof x;\n",
		imports: [],
		breaks: ['core-is-alone']
	},
	'src/lib/core/answers/knows-server.ts': { imports: ['$lib/server/store'], breaks: ['core-is-alone'] },
	'src/lib/core/answers/knows-chart.ts': { imports: ['$lib/charts/scale'], breaks: ['core-is-alone'] },
	'src/lib/core/answers/reads-files.ts': { imports: ['node:fs'], breaks: ['core-is-pure'] },
	'src/lib/core/answers/reads-files-lazily.ts': {
		source: "export const x = () => import('node:fs');\n",
		imports: [],
		breaks: ['core-is-pure']
	},
	'src/lib/core/answers/draws.ts': { imports: ['svelte/store'], breaks: ['core-without-framework'] },
	'src/lib/core/answers/asks.test.ts': { imports: ['node:fs', '../../server/store'], breaks: [] },
	'src/lib/charts/scale.ts': { imports: ['../core/kernel/leaf'], breaks: [] },
	'src/lib/charts/draws.ts': { imports: ['../components/part'], breaks: ['charts-are-geometry'] },
	'src/lib/components/part.ts': { imports: ['../charts/scale', '../core/answers/ask'], breaks: [] },
	'src/lib/components/Part.svelte': {
		source: '<script lang="ts">\n\timport { x } from \'$lib/server/store\';\n</script>\n{x}\n',
		imports: [],
		breaks: ['components-without-server']
	},
	'src/lib/server/view.ts': { imports: ['../charts/scale'], breaks: [] },
	'src/lib/server/store.ts': { imports: ['../core/answers/ask'], breaks: [] },
	'src/lib/server/knows-screen.ts': { imports: ['../components/Part.svelte'], breaks: ['server-without-screens'] },
	'src/cli/main.ts': { imports: ['$lib/core/answers/ask'], breaks: [] },
	'src/cli/knows-server.ts': { imports: ['$lib/server/store'], breaks: ['cli-is-thin'] },
	'src/routes/+page.server.ts': { imports: ['$lib/server/store', '$lib/core/answers/ask'], breaks: [] },
	'src/routes/+page.ts': { imports: ['$lib/server/store'], breaks: ['browser-without-server'] },
	'src/lib/components/knows-test.ts': { imports: ['../../../tests/support/build'], breaks: ['source-without-tests'] },
	'tests/support/build.ts': { imports: ['../../src/lib/core/kernel/leaf'], breaks: [] },
	'tests/oracles/copies.ts': { imports: ['../../src/lib/core/kernel/leaf'], breaks: ['oracle-is-independent'] },
	'tests/oracles/only-a-type.ts': {
		source: "import type { x } from '../../src/lib/core/kernel/leaf';\nexport type Y = typeof x;\n",
		imports: [],
		breaks: []
	},
	'src/lib/components/round-a.ts': { imports: ['./round-b'], breaks: ['no-cycle'] },
	// A cycle is told once.
	'src/lib/components/round-b.ts': { imports: ['./round-a'], breaks: [] },
	'src/lib/components/nowhere.ts': { imports: ['./missing'], breaks: ['resolvable'] },
	'src/lib/components/undeclared.ts': { imports: ['undeclared-package'], breaks: ['declared'] }
};

const manifest = { name: 'tree', version: '1.0.0', dependencies: { svelte: '*' } };

interface Cruise {
	readonly summary: {
		readonly violations: readonly { readonly from: string; readonly rule: { readonly name: string } }[];
	};
}

let folder = '';
const brokenBy = new Map<string, Set<string>>();

beforeAll(() => {
	folder = mkdtempSync(path.join(tmpdir(), 'doorwright-imports-'));
	write('package.json', JSON.stringify(manifest));
	for (const name of ['svelte', 'undeclared-package']) {
		const exports = { '.': './index.js', './*': './index.js' };
		write(`node_modules/${name}/package.json`, JSON.stringify({ name, version: '1.0.0', exports }));
		write(`node_modules/${name}/index.js`, 'export const x = 1;\n');
	}
	for (const [file, { imports, source }] of Object.entries(tree)) {
		const lines = imports.map(
			(target, place) => `import * as m${place} from '${target}';\nexport const e${place} = m${place};\n`
		);
		write(file, source ?? `${lines.join('')}export const x = 1;\n`);
	}
	const told = cruise('json').stdout;
	if (!told.startsWith('{')) throw new Error(told);
	const { summary } = JSON.parse(told) as Cruise;
	for (const { from, rule } of summary.violations) {
		brokenBy.set(from, (brokenBy.get(from) ?? new Set()).add(rule.name));
	}
}, 60_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function cruise(outputType: string): { status: number | null; stdout: string } {
	const program = path.join(root, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
	const config = path.join(root, '.dependency-cruiser.cjs');
	const args = [program, '--config', config, '--output-type', outputType, 'src', 'tests'];
	const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
	return { status, stdout: stdout === '' ? stderr : stdout };
}

function write(file: string, content: string): void {
	mkdirSync(path.dirname(path.join(folder, file)), { recursive: true });
	writeFileSync(path.join(folder, file), content);
}

describe('the direction of imports', () => {
	it.each(Object.entries(tree))('%s', (file, { breaks }) => {
		expect([...(brokenBy.get(file) ?? [])]).toEqual(breaks);
	});

	it('fails the lint run, which says why', () => {
		const { status, stdout } = cruise('err-long');
		expect(status).not.toBe(0);
		expect(stdout).toContain('core-is-pure: src/lib/core/answers/reads-files.ts');
		expect(stdout).toMatch(/same\s+answer\s+for\s+the\s+same\s+document/);
	});

	it('has a case for every rule, and says why for each', async () => {
		const { default: config } = (await import('../../.dependency-cruiser.cjs')) as {
			default: { forbidden: { name: string; comment: string; severity: string }[] };
		};
		const covered = new Set(Object.values(tree).flatMap(({ breaks }) => breaks));
		expect(config.forbidden.map(({ name }) => name).sort()).toEqual([...covered].sort());
		for (const { comment, severity } of config.forbidden) {
			expect(comment.length).toBeGreaterThan(40);
			expect(severity).toBe('error');
		}
	});
});
