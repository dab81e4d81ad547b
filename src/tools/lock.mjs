import { mkdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { say } from './run.mjs';

// A folder is the lock, because making one either succeeds or fails as a whole. The holder's name lies in it, and the
// holder touches it while it works: a holder that is gone, or has been silent for a minute, is taken to have died.

const beatMs = 5_000;
const silentMs = 60_000;

/**
 * Runs `work` while no other process does so under the same lock, in whatever order they come.
 * @template T
 * @param {string} folder the lock: a folder that does not exist while nobody holds it
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function withLock(folder, work) {
	await take(folder);
	const beat = setInterval(() => touch(folder), beatMs);
	try {
		return await work();
	} finally {
		clearInterval(beat);
		rmSync(folder, { recursive: true, force: true });
	}
}

/**
 * A lock may be out of its place for the blink in which another process looks whether its holder lives.
 * @param {string} folder
 */
function touch(folder) {
	try {
		utimesSync(folder, new Date(), new Date());
	} catch (error) {
		if (codeOf(error) !== 'ENOENT') throw error;
	}
}

/** @param {string} folder */
async function take(folder) {
	mkdirSync(path.dirname(folder), { recursive: true });
	for (let told = false; ; await sleep(200)) {
		try {
			mkdirSync(folder);
			writeFileSync(path.join(folder, 'holder'), `${hostname()} ${process.pid}`);
			return;
		} catch (error) {
			if (codeOf(error) !== 'EEXIST') throw error;
		}
		const holder = readHolder(folder);
		if (holder === null) continue;
		if (isDead(holder)) {
			say(`removing the lock of process ${holder.name}, which is gone`);
			discard(folder, holder.name);
		} else if (!told) {
			say(`waiting for process ${holder.name}, which is preparing the same folder`);
			told = true;
		}
	}
}

/**
 * @param {string} folder
 * @returns {{ name: string, silentForMs: number } | null} null when the lock has just been given up
 */
function readHolder(folder) {
	try {
		const silentForMs = Date.now() - statSync(folder).mtimeMs;
		return { name: readName(folder), silentForMs };
	} catch (error) {
		if (codeOf(error) === 'ENOENT') return null;
		throw error;
	}
}

/**
 * The holder's host and process id; empty for the moment between making the lock and signing it.
 * @param {string} folder
 */
function readName(folder) {
	try {
		return readFileSync(path.join(folder, 'holder'), 'utf8');
	} catch (error) {
		if (codeOf(error) === 'ENOENT') return '';
		throw error;
	}
}

/** @param {{ name: string, silentForMs: number }} holder */
function isDead({ name, silentForMs }) {
	if (silentForMs > silentMs) return true;
	const [host, pid] = name.split(' ');
	// The process id of another machine (a shared folder) says nothing here; only its silence does.
	if (pid === undefined || host !== hostname()) return false;
	try {
		process.kill(Number(pid), 0);
		return false;
	} catch (error) {
		return codeOf(error) === 'ESRCH';
	}
}

/**
 * Moves a dead holder's lock away, then deletes it. Two processes may both find it dead: the slower one could move the
 * lock that the faster one has just taken, so it looks at what it moved and puts a living one back.
 * @param {string} folder
 * @param {string} deadName
 */
function discard(folder, deadName) {
	const aside = `${folder}.dead-${process.pid}`;
	try {
		renameSync(folder, aside);
		if (readName(aside) === deadName) rmSync(aside, { recursive: true, force: true });
		else renameSync(aside, folder);
	} catch (error) {
		if (codeOf(error) !== 'ENOENT') throw error;
	}
}

/** @param {unknown} error */
function codeOf(error) {
	return error instanceof Error && 'code' in error ? error.code : undefined;
}
