import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The project's folder, wherever the command was started. */
export const root = fileURLToPath(new URL('../../', import.meta.url));

/**
 * Tells the person at the terminal what is being done. Always on standard error: standard output belongs to answers.
 * @param {string} text
 */
export function say(text) {
	process.stderr.write(`doorwright: ${text}\n`);
}

/**
 * Seconds since `startedAt` (milliseconds of `performance.now()`), for people.
 * @param {number} startedAt
 */
export function secondsSince(startedAt) {
	return `${((performance.now() - startedAt) / 1000).toFixed(1)} s`;
}

/**
 * Runs a program quietly in the project's folder: says what it is for, that it still runs, and shows what it printed
 * only if it fails.
 * @param {string} purpose what it is for, as in "compiling better-sqlite3"
 * @param {string} program
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env] added to the environment
 * @returns {Promise<void>} rejects when the program cannot be started or exits with anything but 0
 */
export async function runQuietly(purpose, program, args, env = {}) {
	const startedAt = performance.now();
	say(`${purpose} …`);
	const stillRunning = setInterval(() => say(`${purpose}: still at it after ${secondsSince(startedAt)}`), 20_000);
	/** @type {Buffer[]} */
	const printed = [];
	try {
		const ended = await new Promise((resolve, reject) => {
			const child = spawn(program, args, {
				cwd: root,
				env: { ...process.env, ...env },
				stdio: ['ignore', 'pipe', 'pipe']
			});
			child.stdout.on('data', (chunk) => printed.push(chunk));
			child.stderr.on('data', (chunk) => printed.push(chunk));
			child.once('error', reject);
			child.once('close', (status, signal) => resolve(signal ?? status));
		});
		if (ended !== 0) {
			process.stderr.write(Buffer.concat(printed));
			throw new Error(`${purpose} failed (${program} ended with ${ended})`);
		}
	} finally {
		clearInterval(stillRunning);
	}
	say(`${purpose}: done in ${secondsSince(startedAt)}`);
}

/**
 * Runs a program with the terminal's own input and output.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env] added to the environment
 * @returns {Promise<number>} the exit status; 1 when a signal ended it
 */
export function runOpenly(program, args, env = {}) {
	return new Promise((resolve, reject) => {
		const child = spawn(program, args, { cwd: root, env: { ...process.env, ...env }, stdio: 'inherit' });
		child.once('error', reject);
		child.once('close', (status) => resolve(status ?? 1));
	});
}
