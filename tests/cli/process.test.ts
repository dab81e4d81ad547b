import { type SpawnOptions, spawn } from 'node:child_process';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { prepare } from '../../src/tools/prepare.mjs';
import { root } from '../../src/tools/run.mjs';
import { everyDay, oneDoor } from '../support/one-door';
import { smallSite } from '../support/small-site';
import { type } from '../support/terminal';

/** The built program as it is really started: streams, pipes, signals, large files, failure. */

let folder = '';
beforeAll(async () => {
	folder = await mkdtemp(path.join(tmpdir(), 'doorwright-cli-'));
	await prepare(['cli']);
}, 300_000);
afterAll(() => rm(folder, { recursive: true, force: true }));

const program = path.join(root, 'build/cli/main.js');

interface Ended {
	readonly status: number | null;
	readonly signal: NodeJS.Signals | null;
	readonly out: string;
	readonly err: string;
}

/** Starts the program; `onErr` hears what comes on standard error, and may send signals. */
function start(
	args: readonly string[],
	{ stdin, env = {}, onErr }: { stdin?: string; env?: NodeJS.ProcessEnv; onErr?: (kill: () => void) => void } = {}
): Promise<Ended> {
	return new Promise((resolve, reject) => {
		const options: SpawnOptions = { cwd: folder, env: { ...process.env, ...env }, stdio: 'pipe' };
		const child = spawn(process.execPath, [program, ...args], options);
		let [out, err] = ['', ''];
		child.stdout?.setEncoding('utf8').on('data', (text: string) => (out += text));
		child.stderr?.setEncoding('utf8').on('data', (text: string) => {
			err += text;
			onErr?.(() => child.kill('SIGINT'));
		});
		child.once('error', reject);
		child.once('close', (status, signal) => resolve({ status, signal, out, err }));
		// A program that refuses early does not read on.
		child.stdin?.on('error', () => undefined);
		if (stdin === undefined) child.stdin?.end();
		else if (child.stdin) createReadStream(stdin).pipe(child.stdin);
	});
}

async function written(name: string, content: unknown): Promise<string> {
	const file = path.join(folder, name);
	await writeFile(file, typeof content === 'string' ? content : JSON.stringify(content));
	return file;
}

/** Runs a line of a shell in the folder of the test. */
function shell(line: string): Promise<Ended> {
	return new Promise((resolve, reject) => {
		const child = spawn('sh', ['-c', line], {
			cwd: folder,
			env: { ...process.env, NODE: process.execPath, PROGRAM: program }
		});
		let [out, err] = ['', ''];
		child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
		child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
		child.once('error', reject);
		child.once('close', (status, signal) => resolve({ status, signal, out, err }));
	});
}

/** So many spans that their JSON is far larger than what a pipe holds. */
const manySpans = oneDoor(
	{ timeZone: 'America/Chicago', from: '2027-01-01', until: '2036-12-31' },
	{ week: everyDay('06:00-07:00', '08:00-09:00', '10:00-11:00') }
);
const question = ['access', 'many.json', '--person', 'p', '--from', '2027-01-01', '--until', '2036-12-31', '--json'];

describe('the program', () => {
	it('answers as it does in a test without a process', async () => {
		const site = smallSite();
		await written('site.json', site);
		const { status, out, err } = await start(['check', 'site.json', '--json']);
		expect({ status, out, err }).toEqual(await type(['check', 'a', '--json'], { files: { a: site } }));
	});

	it('is started by npm, and by the bin of the package', async () => {
		const file = await written('site.json', smallSite());
		const expected = (await type(['check', 'a', '--json'], { files: { a: smallSite() } })).out;
		const byNpm = await shell(`npm run --prefix "${root}" -s doorwright -- check "${file}" --json`);
		const byBin = await shell(`"$NODE" "${path.join(root, 'src/cli/launch.mjs')}" check site.json --json`);
		expect([byNpm.out, byBin.out]).toEqual([expected, expected]);
	});

	it('reads standard input', async () => {
		const file = await written('in.json', smallSite());
		const { status, out } = await start(['check', '-', '--json'], { stdin: file });
		expect({ status, out, err: '' }).toEqual(await type(['check', '-', '--json'], { stdin: smallSite() }));
	});

	it('writes a large answer whole before it ends, also into a slow pipe', async () => {
		await written('many.json', manySpans);
		const { status, out, err } = await start(question);
		expect([status, err]).toEqual([0, '']);
		expect(out.length).toBeGreaterThan(500_000);
		// Ten years have 3653 days.
		expect((JSON.parse(out) as { spans: unknown[] }).spans).toHaveLength(3 * 3653);
		const slow = await shell(`"$NODE" "$PROGRAM" ${question.join(' ')} | (sleep 1; cat)`);
		expect(slow.out).toBe(out);
	});

	it('ends quietly when its reader has had enough', async () => {
		await written('many.json', manySpans);
		const { out, err } = await shell(`("$NODE" "$PROGRAM" ${question.join(' ')}; echo "status $?" >&2) | head -c 9`);
		expect(out).toBe('{"spans":');
		expect(err).toBe('status 0\n');
	});

	it('says that it failed, with status 3 and nothing on standard output, when it does', async () => {
		await written('site.json', smallSite());
		// A platform that judges a time zone once, and then knows none any more.
		const broken = await written(
			'broken.mjs',
			`const Real = Intl.DateTimeFormat;
			let calls = 0;
			Intl.DateTimeFormat = function (...args) {
				if (++calls > 1) throw new Error('broken on purpose');
				return new Real(...args);
			};`
		);
		const range = ['--from', '2027-01-04', '--until', '2027-01-04', '--json'];
		const { status, out, err } = await start(['access', 'site.json', '--person', '1001', ...range], {
			env: { NODE_OPTIONS: `--import=${pathToFileURL(broken).href}` }
		});
		expect([status, out]).toEqual([3, '']);
		expect(err).toContain('broken on purpose');
	});
});

describe('what is no document and no roster', () => {
	it('a folder, a file that is not there, one that may not be read', async () => {
		for (const file of ['.', 'none.json', 'none/none.json']) {
			const { status, out, err } = await start(['check', file]);
			expect([file, status, out]).toEqual([file, 2, '']);
			expect(err).toContain('FILE');
		}
	});

	it('50 MB of noise, as bytes and as text', async () => {
		const bytes = path.join(folder, 'noise.bin');
		const text = path.join(folder, 'noise.txt');
		await noise(bytes, (block) => block);
		await noise(text, (block) => Buffer.from(`${block.toString('base64')}\n`));
		for (const command of ['check', 'import-roster']) {
			for (const file of [bytes, text]) {
				const { status, out, err } = await start([command, file]);
				expect([command, file, status, out]).toEqual([command, file, 2, '']);
				expect(err.length).toBeLessThan(2000);
				expect(err).toContain(path.basename(file));
			}
		}
		const piped = await start(['check', '-', '--json'], { stdin: text });
		expect(piped.status).toBe(2);
		expect(JSON.parse(piped.out)).toHaveProperty('faults');
	}, 120_000);
});

/** Writes 50 MB of bytes that follow no rule, the same in every run. */
async function noise(file: string, form: (block: Buffer) => Buffer): Promise<void> {
	const stream = createWriteStream(file);
	let state = 1;
	const block = Buffer.alloc(1_000_000);
	for (let written = 0; written < 50_000_000;) {
		for (let at = 0; at < block.length; at += 4) {
			state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
			block.writeUInt32LE(state, at);
		}
		const part = form(block);
		written += part.length;
		if (!stream.write(Buffer.from(part))) await new Promise<void>((resolve) => stream.once('drain', () => resolve()));
	}
	await new Promise<void>((resolve) => stream.end(resolve));
}

describe('a long plan', () => {
	/** More people than can be planned at once, so that there is time to stop it. */
	function crowd(): unknown {
		const people = Array.from({ length: 1200 }, (_, index) => ({
			id: `p${index}`,
			department: `d${index % 20}`,
			shiftPattern: `s${index % 7}`,
			captureClass: ['a', 'b', 'c'][index % 3]
		}));
		const shiftPatterns = Array.from({ length: 7 }, (_, index) => ({
			id: `s${index}`,
			anchor: '2027-01-04',
			cycleDays: 5 + (index % 4),
			shifts: [0, 1, 2].map((day) => ({ day, at: ['06:00-14:00', '14:00-22:00', '22:00-06:00'][(index + day) % 3] }))
		}));
		const open = Array.from({ length: 12 }, (_, day) => String(day + 4).padStart(2, '0')).flatMap((day) =>
			['07:10-08:35', '10:00-11:45', '15:20-16:55'].map((at) => ({ date: `2027-01-${day}`, at }))
		);
		return {
			format: 'doorwright.rollout',
			version: 1,
			site: { name: 'Crowd', timeZone: 'America/Chicago' },
			horizon: { from: '2027-01-04', until: '2027-01-31' },
			areas: [{ id: 'street', outside: true }],
			people,
			shiftPatterns,
			enrollment: {
				captureClasses: ['a', 'b', 'c'].map((id, index) => ({ id, minutes: 7 + 5 * index })),
				stations: [{ id: 'desk', area: 'street', lanes: 6, turnoverMinutes: 3, open }],
				awayLimits: Array.from({ length: 20 }, (_, index) => ({ department: `d${index}`, maxAway: 2 }))
			}
		};
	}

	it('ends at Ctrl-C with the best so far, as a whole answer', async () => {
		await written('crowd.json', crowd());
		let isSent = false;
		const { status, signal, out, err } = await start(
			['plan', 'crowd.json', '--seconds', '600', '--progress', '--json'],
			{
				onErr(interrupt) {
					if (!isSent) interrupt();
					isSent = true;
				}
			}
		);
		expect([signal, isSent]).toEqual([null, true]);
		expect(status).toBe(1);
		expect(err).toContain('stopping with the best so far');
		const plan = JSON.parse(out) as { bookings: unknown[]; unbooked: unknown[] };
		expect(plan.bookings.length).toBeGreaterThan(0);
		expect(plan.bookings.length + plan.unbooked.length).toBe(1200);
	}, 180_000);
});
