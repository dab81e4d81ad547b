import type { Result } from '../lib/core/kernel/result';
import type { Asked, Io, LongQuestion, Progress } from './io';

/**
 * Asks a long question, tells its progress on standard error if somebody watches or asks for it, and ends it early, with
 * the best that it has, at Ctrl-C. A second Ctrl-C ends the program.
 */
export async function askLong(question: LongQuestion, io: Io, isProgressWanted: boolean): Promise<Result<unknown>> {
	const { isWatched } = io;
	const line = new ProgressLine(io, isWatched);
	const isShown = isWatched || isProgressWanted;
	const interrupt = { isHeard: false };
	let asked: Asked | undefined;
	// Caught before the question is asked, so that no Ctrl-C falls between.
	const undo = io.onInterrupt(() => {
		interrupt.isHeard = true;
		asked?.stop();
		if (isShown) line.show({ done: 0, total: 0, note: 'stopping with the best so far' });
	});
	try {
		asked = await io.ask(question, (news) => {
			if (isShown) line.show(news);
		});
		if (interrupt.isHeard) asked.stop();
		return await asked.result;
	} finally {
		undo();
		await line.end();
	}
}

/** On a terminal one line that is written over, elsewhere a line for each news that says something new. */
class ProgressLine {
	readonly #io: Io;
	readonly #isOneLine: boolean;
	#last = '';
	#written: Promise<void> = Promise.resolve();

	constructor(io: Io, isOneLine: boolean) {
		this.#io = io;
		this.#isOneLine = isOneLine;
	}

	show({ done, total, note }: Progress): void {
		const share = total > 0 ? `${Math.min(100, Math.floor((100 * done) / total))} %` : '';
		const text = [share, note ?? ''].filter((part) => part !== '').join('  ');
		if (text === this.#last || text === '') return;
		this.#last = text;
		this.#write(this.#isOneLine ? `\r\u001b[K${text}` : `${text}\n`);
	}

	/** Takes the line away; resolves when everything is written. */
	async end(): Promise<void> {
		if (this.#isOneLine && this.#last !== '') this.#write('\r\u001b[K');
		await this.#written;
	}

	#write(text: string): void {
		this.#written = this.#written.then(() => this.#io.err(text));
	}
}
