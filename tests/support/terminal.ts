import type { Io, LongQuestion, Progress } from '../../src/cli/io';
import { run } from '../../src/cli/run';
import { findAnswer } from '../../src/lib/core/answers';
import { readRecordsIn } from '../../src/lib/server/store/open-records';

/** What a command did: its exit status and what it wrote. */
export interface Said {
	readonly status: number;
	readonly out: string;
	readonly err: string;
	/** There when a long question was asked to stop. */
	readonly wasStopped?: true;
}

export interface World {
	/** Files by their paths. A value that is no text and no bytes is written as JSON. `null` is a folder. */
	readonly files?: Readonly<Record<string, unknown>>;
	/** What comes from standard input. */
	readonly stdin?: unknown;
	readonly isWatched?: boolean;
	/** What a long question tells on its way before it answers. */
	readonly news?: readonly Progress[];
	/** Calls for a stop as soon as a long question is asked. */
	readonly isInterrupted?: boolean;
}

/** Runs a command of the command line in a world of its own: no process, no file, no thread. */
export async function type(args: readonly string[], world: World = {}): Promise<Said> {
	let [out, err] = ['', ''];
	let react: (() => void) | undefined;
	const asked = { isStopped: false };
	const io: Io = {
		readFile(path) {
			const { files = {} } = world;
			if (!Object.hasOwn(files, path)) return Promise.reject(systemError('ENOENT'));
			const content = files[path];
			return content === null ? Promise.reject(systemError('EISDIR')) : Promise.resolve(bytesOf(content));
		},
		readStdin: () => Promise.resolve(bytesOf(world.stdin ?? '')),
		out(text) {
			out += text;
			return Promise.resolve();
		},
		err(text) {
			err += text;
			return Promise.resolve();
		},
		isWatched: world.isWatched ?? false,
		ask(question, onProgress) {
			const answer = async () => {
				for (const news of world.news ?? []) onProgress(news);
				await Promise.resolve();
				if (world.isInterrupted === true) react?.();
				return answerNow(question, () => asked.isStopped);
			};
			return Promise.resolve({ result: answer(), stop: () => void (asked.isStopped = true) });
		},
		onInterrupt(wanted) {
			react = wanted;
			return () => void (react = undefined);
		},
		readRecords: (folder, rollout) => Promise.resolve(readRecordsIn(folder ?? 'data', rollout)),
		serve: () => Promise.resolve(0)
	};
	const status = await run(args, io);
	if (react !== undefined) throw new Error('Ctrl-C is still caught after the command has ended');
	return { status, out, err, ...(asked.isStopped ? { wasStopped: true } : {}) };
}

async function answerNow({ answer: name, params, rollout }: LongQuestion, isCancelled: () => boolean) {
	const answer = await findAnswer(name);
	if (!answer) throw new Error(`there is no question ${name}`);
	return answer.run(rollout, params, { report: () => undefined, isCancelled, secondsSpent: () => 0 });
}

function bytesOf(content: unknown): Uint8Array {
	if (content instanceof Uint8Array) return content;
	return new TextEncoder().encode(typeof content === 'string' ? content : JSON.stringify(content));
}

function systemError(code: string): Error {
	return Object.assign(new Error(code), { code });
}
