import { existsSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { prepareBrowser } from './browser.mjs';
import { build, products } from './build.mjs';
import { install } from './install.mjs';
import { withLock } from './lock.mjs';
import { root, runQuietly, say } from './run.mjs';

// Makes a fresh clone ready to run: node src/tools/prepare.mjs [app] [cli] [worker] [browser]
// Imports only what Node brings, because it runs before anything is installed. Says nothing when there is nothing to do.

/**
 * Installs, then builds what is stale among the wanted products. Two at once wait for each other.
 * @typedef {import('./build.mjs').Product | 'browser'} Wanted
 * @param {readonly Wanted[]} wanted
 */
export function prepare(wanted) {
	return withLock(path.join(root, 'build/lock'), async () => {
		await install();
		await writeTypes();
		for (const product of wanted) {
			if (product === 'browser') await prepareBrowser();
			else if (existsSync(path.join(root, products[product].entry))) await build(product);
		}
	});
}

/** tsconfig.json builds upon a file that the framework writes; without it nothing in TypeScript can be read. */
async function writeTypes() {
	if (existsSync(path.join(root, '.svelte-kit/tsconfig.json'))) return;
	const program = 'node_modules/@sveltejs/kit/svelte-kit.js';
	await runQuietly('writing the types of the routes', process.execPath, [program, 'sync']);
}

/**
 * @param {string} word
 * @returns {word is Wanted}
 */
function isWanted(word) {
	return word === 'browser' || Object.hasOwn(products, word);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
	const words = process.argv.slice(2);
	const unknown = words.filter((word) => !isWanted(word));
	try {
		if (unknown.length > 0) throw new Error(`cannot prepare ${unknown.join(', ')}`);
		await prepare(words.filter(isWanted));
	} catch (error) {
		say(error instanceof Error ? error.message : String(error));
		process.exitCode = 1;
	}
}
