import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { root } from './run.mjs';

/**
 * The files at or under the given paths, without tests, sorted.
 * @param {readonly string[]} places relative to the project's folder; one that is missing holds nothing
 * @returns {string[]} relative paths
 */
export function filesUnder(places) {
	/** @type {string[]} */
	const files = [];
	for (const place of places) {
		const full = path.join(root, place);
		if (!existsSync(full)) continue;
		if (!statSync(full).isDirectory()) files.push(place);
		else for (const name of readdirSync(full)) files.push(...filesUnder([`${place}/${name}`]));
	}
	return files.filter((file) => !/\.test\.ts$/.test(file)).sort();
}

/**
 * One figure for the content of all those files and for Node's version. By content, not by time: a fresh checkout of
 * the same commit is the same.
 * @param {readonly string[]} places
 */
export function fingerprintOf(places) {
	const hash = createHash('sha256').update(process.versions.node);
	for (const file of filesUnder(places)) {
		const content = readFileSync(path.join(root, file));
		hash.update(`\n${file} ${content.length}\n`).update(content);
	}
	return hash.digest('hex');
}

/**
 * When any of those files was last written, in milliseconds since 1970. Cheaper than the fingerprint: nothing is read.
 * @param {readonly string[]} places
 */
export function lastWrittenAt(places) {
	return filesUnder(places).reduce((latest, file) => Math.max(latest, statSync(path.join(root, file)).mtimeMs), 0);
}
