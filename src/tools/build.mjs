import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fingerprintOf } from './fingerprint.mjs';
import { root, runQuietly } from './run.mjs';

/**
 * What is built: from which files, by which program. The command line has its own, smaller list, so that a changed
 * screen does not make the next command wait.
 * @typedef {'app' | 'cli' | 'worker' | 'records'} Product
 * @type {Record<Product, { purpose: string, from: string[], entry: string, result: string, args: string[] }>}
 */
export const products = {
	app: {
		purpose: 'building the app',
		from: [
			'src/routes',
			'src/lib',
			'src/app.html',
			'src/app.d.ts',
			'src/hooks.server.ts',
			'static',
			'package-lock.json',
			'svelte.config.js',
			'vite.config.ts',
			'tsconfig.json'
		],
		entry: 'src/routes',
		result: 'build/app/handler.js',
		args: ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn']
	},
	cli: {
		purpose: 'building the command line',
		from: ['src/cli', 'src/lib/core', 'src/tools/bundle.mjs', 'package-lock.json'],
		entry: 'src/cli/main.ts',
		result: 'build/cli/main.js',
		args: ['src/tools/bundle.mjs', 'src/cli/main.ts', 'build/cli']
	},
	worker: {
		purpose: 'building the worker for long computations',
		from: ['src/lib/server', 'src/lib/core', 'src/tools/bundle.mjs', 'package-lock.json'],
		entry: 'src/lib/server/jobs/worker.ts',
		result: 'build/worker/worker.js',
		args: ['src/tools/bundle.mjs', 'src/lib/server/jobs/worker.ts', 'build/worker']
	},
	records: {
		purpose: 'building what reads change records for the command line',
		from: ['src/lib/server/store', 'src/lib/core/document', 'src/tools/bundle.mjs', 'package-lock.json'],
		entry: 'src/lib/server/store/open-records.ts',
		result: 'build/records/open-records.js',
		args: ['src/tools/bundle.mjs', 'src/lib/server/store/open-records.ts', 'build/records']
	}
};

/**
 * The note beside a product that says from what it was built; its time says when that was last found to be so.
 * @param {Product} product
 */
export function stampOf(product) {
	return path.join(root, 'build/stamps', product);
}

/**
 * Builds a product unless the one that is there was made from exactly these files.
 * @param {Product} product
 */
export async function build(product) {
	const { purpose, from, result, args } = products[product];
	const stamp = stampOf(product);
	const fingerprint = fingerprintOf(from);
	const isFresh =
		existsSync(path.join(root, result)) && existsSync(stamp) && readFileSync(stamp, 'utf8') === fingerprint;
	if (!isFresh) {
		// A build that is broken off must not pass for a finished one.
		rmSync(stamp, { force: true });
		await runQuietly(purpose, process.execPath, args, { NODE_ENV: 'production' });
	}
	mkdirSync(path.dirname(stamp), { recursive: true });
	writeFileSync(stamp, fingerprint);
}
