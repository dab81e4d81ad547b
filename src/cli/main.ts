import { isMainThread } from 'node:worker_threads';
import { status } from './outcome';
import { processIo } from './process-io';
import { run } from './run';

// The program: the exit status, and nothing else. Threads for long questions run this file too.

if (isMainThread) {
	try {
		process.exitCode = await run(process.argv.slice(2), processIo(new URL(import.meta.url)));
	} catch (error) {
		const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
		process.stderr.write(`doorwright: the program failed, which is a mistake in it and not yours.\n${told}\n`);
		process.exitCode = status.failed;
	}
} else {
	const { answerInThread } = await import('./thread');
	await answerInThread();
}
