import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

// Measures, and prints our figure beside a peer's or a bound's: node tests/bench/run.mjs [NAME ...]
// Never part of the tests: a figure depends on the machine and on what else it does.

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const steps = [
	['src/tools/prepare.mjs', 'cli'],
	['src/tools/bundle.mjs', 'tests/bench/main.ts', 'build/bench'],
	['build/bench/main.js', ...process.argv.slice(2)]
];
for (const step of steps) {
	const { status } = spawnSync(process.execPath, step, { cwd: root, stdio: 'inherit' });
	if (status !== 0) process.exit(status ?? 1);
}
