import { readFile } from 'node:fs/promises';
import type { Io } from './io';

interface Prepare {
	readonly prepare: (products: readonly string[]) => Promise<void>;
}

type RecordReader = (folder: string, rollout: string | undefined) => Awaited<ReturnType<Io['readRecords']>>;

/** The real world: this process, its streams and its signals. `program` is the file that threads run. */
export function processIo(program: URL): Io {
	// A reader that has had enough, as `head` has, is no failure; every write then ends at once.
	for (const stream of [process.stdout, process.stderr]) {
		stream.on('error', (error: NodeJS.ErrnoException) => {
			if (error.code !== 'EPIPE') throw error;
		});
	}
	return {
		readFile: (path) => readFile(path),
		async readStdin() {
			const chunks: Buffer[] = [];
			for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
			return Buffer.concat(chunks);
		},
		out: (text) => written(process.stdout, text),
		err: (text) => written(process.stderr, text),
		isWatched: process.stderr.isTTY,
		async ask(question, onProgress) {
			const { askInThread } = await import('./thread');
			return askInThread(program, question, onProgress);
		},
		onInterrupt(react) {
			process.once('SIGINT', react);
			return () => void process.off('SIGINT', react);
		},
		async readRecords(folder, rollout) {
			// A program of its own: the database is the server's, and the other commands start without it.
			const { prepare } = (await import(new URL('../../src/tools/prepare.mjs', program).href)) as Prepare;
			await prepare(['records']);
			const built = new URL('../records/open-records.js', program).href;
			const { readRecordsIn } = (await import(built)) as { readRecordsIn: RecordReader };
			return readRecordsIn(folder ?? (process.env['DOORWRIGHT_DATA'] || 'data'), rollout);
		},
		async serve() {
			// Serving goes on after this returns, until the process is told to end.
			await import(new URL('../../src/tools/start.mjs', program).href);
			return 0;
		}
	};
}

function written(stream: NodeJS.WriteStream, text: string): Promise<void> {
	return new Promise((resolve) => {
		stream.write(text, () => resolve());
	});
}
