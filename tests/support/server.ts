import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { root } from '../../src/tools/run.mjs';

export interface RunningApp {
	/** Where it serves, as in `http://127.0.0.1:34567`, without a slash at the end. */
	readonly url: string;
	readonly dataFolder: string;
	/** All that it has written so far, to standard output and standard error. */
	printed(): string;
	/**
	 * Ends it as `npm start` is ended, and expects a clean end. The data folder is deleted if it was made for this app.
	 * @returns how it ended: 0, or the name of the signal that had to be used
	 */
	stop(): Promise<number | string>;
}

export interface AppOptions {
	/** A folder to use and keep; without it, a new one that is deleted at the end. */
	readonly dataFolder?: string;
	readonly env?: Readonly<Record<string, string>>;
}

/** Starts the built app on a free port, and resolves when it serves. Rejects with what it printed when it does not. */
export async function startApp({ dataFolder, env = {} }: AppOptions = {}): Promise<RunningApp> {
	const folder = dataFolder ?? (await mkdtemp(path.join(tmpdir(), 'doorwright-')));
	const child = spawn(process.execPath, ['src/tools/start.mjs'], {
		cwd: root,
		env: { ...process.env, PORT: '0', NODE_ENV: 'production', DOORWRIGHT_DATA: folder, ...env },
		stdio: ['ignore', 'pipe', 'pipe']
	});
	let printed = '';
	child.stdout.setEncoding('utf8').on('data', (text: string) => (printed += text));
	child.stderr.setEncoding('utf8').on('data', (text: string) => (printed += text));
	const url = await addressOf(child, () => printed);
	return {
		url,
		dataFolder: folder,
		printed: () => printed,
		async stop() {
			const ended = await end(child);
			if (dataFolder === undefined) await rm(folder, { recursive: true, force: true });
			return ended;
		}
	};
}

function addressOf(child: ChildProcess, printed: () => string): Promise<string> {
	return new Promise((resolve, reject) => {
		const look = (): void => {
			const [, url] = /serves (http:\/\/\S+)/.exec(printed()) ?? [];
			if (url !== undefined) resolve(url);
		};
		child.stdout?.on('data', look);
		child.once('error', reject);
		child.once('exit', (status) => {
			reject(new Error(`the app ended with ${String(status)} before it served:\n${printed()}`));
		});
	});
}

async function end(child: ChildProcess): Promise<number | string> {
	if (child.exitCode === null && child.signalCode === null) {
		const exited = once(child, 'exit');
		child.kill('SIGTERM');
		const tooLong = setTimeout(() => child.kill('SIGKILL'), 10_000);
		await exited;
		clearTimeout(tooLong);
	}
	return child.exitCode ?? child.signalCode ?? 'unknown';
}
