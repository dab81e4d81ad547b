import { fileURLToPath } from 'node:url';
import { runOpenly, say, secondsSince } from './run.mjs';

// The checks that need no test runner, each one program: node src/tools/steps.mjs [lint] [types] [format]

const formatted = [
	'{src,tests}/**/*.{ts,js,mjs,cjs,svelte,css,html}',
	'*.{js,ts,json}',
	'.*.{cjs,json}',
	'!package-lock.json'
];

/** @type {Record<'lint' | 'types' | 'format', { name: string, program: string, args: string[] }[]>} */
const groups = {
	lint: [
		{ name: 'rules for the source', program: 'node_modules/eslint/bin/eslint.js', args: ['.', '--max-warnings', '0'] },
		{
			name: 'formatting',
			program: 'node_modules/prettier/bin/prettier.cjs',
			args: ['--check', '--log-level', 'warn', ...formatted]
		},
		{
			name: 'who may import whom',
			program: 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs',
			args: ['--config', '.dependency-cruiser.cjs', '--output-type', 'err-long', 'src', 'tests']
		}
	],
	format: [
		{
			name: 'formatting, and mending it',
			program: 'node_modules/prettier/bin/prettier.cjs',
			args: ['--write', '--log-level', 'warn', ...formatted]
		}
	],
	types: [
		{ name: 'types of the routes', program: 'node_modules/@sveltejs/kit/svelte-kit.js', args: ['sync'] },
		{ name: 'types', program: 'node_modules/typescript/bin/tsc', args: ['--noEmit'] },
		{
			name: 'types and accessibility of the components',
			program: 'node_modules/svelte-check/bin/svelte-check',
			args: ['--tsconfig', './tsconfig.json', '--output', 'human', '--fail-on-warnings', '--threshold', 'warning']
		}
	]
};

/**
 * Runs every step of the groups, also after one has failed: all that is wrong is told in one go.
 * @param {readonly (keyof typeof groups)[]} names
 */
export async function runSteps(names) {
	let passed = 0;
	let failed = 0;
	for (const { name, program, args } of names.flatMap((group) => groups[group])) {
		const startedAt = performance.now();
		say(`checking ${name} …`);
		const status = await runOpenly(process.execPath, [program, ...args]);
		say(`${name}: ${status === 0 ? 'in order' : 'FAILED'} after ${secondsSince(startedAt)}`);
		if (status === 0) passed++;
		else failed++;
	}
	return { passed, failed };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
	const wanted = process.argv.slice(2);
	const known = /** @type {const} */ (['lint', 'types', 'format']);
	const { failed } = await runSteps(known.filter((group) => wanted.includes(group)));
	process.exitCode = failed === 0 ? 0 : 1;
}
