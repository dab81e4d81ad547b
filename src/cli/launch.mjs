#!/usr/bin/env node
import { existsSync, statSync } from 'node:fs';
import { products, stampOf } from '../tools/build.mjs';
import { lastWrittenAt } from '../tools/fingerprint.mjs';

// Starts the command line, and makes sure beforehand that it is installed and built from the present source. Looks at
// times only, because every command waits for this; `prepare` then decides by content.

async function makeReady() {
	const isServing = process.argv[2] === 'serve';
	const stamp = stampOf('cli');
	const isFresh = existsSync(stamp) && statSync(stamp).mtimeMs >= lastWrittenAt(products.cli.from);
	if (isFresh && !isServing) return;
	const { prepare } = await import('../tools/prepare.mjs');
	await prepare(isServing ? ['app', 'cli', 'worker'] : ['cli']);
}

let isReady = true;
try {
	await makeReady();
} catch (error) {
	isReady = false;
	process.stderr.write(`doorwright: ${error instanceof Error ? error.message : String(error)}\n`);
	process.exitCode = 3;
}
if (isReady) await import(new URL('../../build/cli/main.js', import.meta.url).href);
