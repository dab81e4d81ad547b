import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { root } from '../../src/tools/run.mjs';

// Two `npm start` at once must not install or build into each other, and one that was killed must not block the next.

let folder: string;
let lock: string;
let log: string;
beforeEach(() => {
	folder = mkdtempSync(path.join(tmpdir(), 'doorwright-lock-'));
	lock = path.join(folder, 'lock');
	log = path.join(folder, 'log');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A process that takes the lock, notes that it is in, does something for a moment, and notes that it is out. */
const program = `
	import { appendFileSync } from 'node:fs';
	import { setTimeout as sleep } from 'node:timers/promises';
	import { withLock } from ${JSON.stringify(path.join(root, 'src/tools/lock.mjs'))};
	const [lock, log] = process.argv.slice(1);
	await withLock(lock, async () => {
		appendFileSync(log, 'in ' + process.pid + '\\n');
		await sleep(120);
		appendFileSync(log, 'out ' + process.pid + '\\n');
	});
`;

async function run(): Promise<string> {
	const child = spawn(process.execPath, ['--input-type=module', '-e', program, lock, log], {
		stdio: ['ignore', 'ignore', 'pipe']
	});
	let said = '';
	child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
	const [status] = (await once(child, 'close')) as [number];
	expect(status, said).toBe(0);
	return said;
}

/** Each that went in came out before the next went in. */
function expectTurns(count: number): void {
	const lines = readFileSync(log, 'utf8').trim().split('\n');
	expect(lines).toHaveLength(2 * count);
	for (let turn = 0; turn < count; turn++) {
		expect(lines[2 * turn + 1]).toBe(lines[2 * turn]?.replace('in', 'out'));
	}
	expect(existsSync(lock)).toBe(false);
}

function leaveLock(holder: string): void {
	mkdirSync(lock);
	writeFileSync(path.join(lock, 'holder'), holder);
}

/** The id of a process that has ended. */
function deadPid(): number {
	return spawnSync(process.execPath, ['-e', '']).pid;
}

it('lets four in one after the other, and the others say that they wait', async () => {
	const said = await Promise.all([run(), run(), run(), run()]);
	expectTurns(4);
	expect(said.filter((text) => text.includes('waiting for process')).length).toBeGreaterThan(0);
});

it('takes the lock of a process that was killed, also when several find it', async () => {
	leaveLock(`${hostname()} ${deadPid()}`);
	const said = await Promise.all([run(), run(), run()]);
	expectTurns(3);
	expect(said.join('')).toContain('which is gone');
});

it('takes a lock that nobody has touched for a minute, whoever holds it', async () => {
	leaveLock(`another-machine ${process.pid}`);
	const longAgo = new Date(Date.now() - 61_000);
	utimesSync(lock, longAgo, longAgo);
	await run();
	expectTurns(1);
});

it('waits for a lock of another machine that was touched just now', async () => {
	leaveLock(`another-machine ${deadPid()}`);
	const waiting = run();
	await new Promise((resolve) => setTimeout(resolve, 800));
	expect(existsSync(log)).toBe(false);
	rmSync(lock, { recursive: true });
	await waiting;
	expectTurns(1);
});
