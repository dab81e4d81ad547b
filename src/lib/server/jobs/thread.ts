import { existsSync } from 'node:fs';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Rollout } from '../../core/document/schema';
import type { Result } from '../../core/kernel/result';
import { patchOf } from './patch';
import { type Change, type Message, type Order, keepLatest } from './protocol';

/** A question, and the state of a rollout that it is about. */
export interface Question {
	readonly answer: string;
	readonly params: unknown;
	/** Names the state of the rollout: the same key, the same rollout. */
	readonly key: string;
	readonly rollout: Rollout;
}

export interface Progress {
	readonly done: number;
	readonly total: number;
	readonly note: string | null;
}

/** Asks for a stop of one question: it then answers with the best that it has. */
export class StopSign {
	readonly buffer = new SharedArrayBuffer(4);

	raise(): void {
		Atomics.store(new Int32Array(this.buffer), 0, 1);
	}
}

/** A thread that answers questions one after the other. It does not keep the program from ending. */
export class Thread {
	readonly #worker: Worker;
	readonly #waiting = new Map<number, Waiting>();
	readonly #sent = new Map<string, Rollout>();
	#count = 0;
	#isOver = false;

	/** Throws when the worker is not built. */
	constructor() {
		// Answers make much that is gone at once: a larger nursery halves what collecting it takes.
		this.#worker = new Worker(workerFile(), { resourceLimits: { maxYoungGenerationSizeMb: 64 } });
		this.#worker.unref();
		this.#worker.on('message', (message: Message) => this.#hear(message));
		this.#worker.once('error', (error: Error) => this.#failAll(error));
		this.#worker.once('exit', () => this.#failAll(new Error('the thread ended')));
	}

	/** True when nothing can be asked any more. */
	get isOver(): boolean {
		return this.#isOver;
	}

	/** Asks a question. Rejects when the thread breaks or is ended. */
	ask(
		question: Question,
		sign = new StopSign(),
		onProgress: (news: Progress) => void = () => undefined
	): Promise<Result<unknown>> {
		const { answer, params, key, rollout } = question;
		const number = ++this.#count;
		const sent = this.#sent.has(key) ? null : (this.#changeTo(rollout) ?? rollout);
		keepLatest(this.#sent, key, rollout);
		const order: Order = { number, answer, params, key, rollout: sent, stop: sign.buffer };
		return new Promise((resolve, reject) => {
			if (this.#isOver) {
				reject(new Error('the thread ended'));
				return;
			}
			this.#waiting.set(number, { resolve, reject, onProgress });
			this.#worker.postMessage(order);
		});
	}

	/** Ends it at once; what is still being answered is rejected. */
	async end(): Promise<void> {
		await this.#worker.terminate();
	}

	/** What makes a rollout of the latest that the thread keeps of the same site: nearly always a few entries. */
	#changeTo(rollout: Rollout): Change | undefined {
		for (const [base, other] of [...this.#sent].reverse()) {
			if (other.people === rollout.people || other.schedules === rollout.schedules || other.doors === rollout.doors) {
				return { base, patch: patchOf(other, rollout) };
			}
		}
		return undefined;
	}

	#hear(message: Message): void {
		const waiting = this.#waiting.get(message.number);
		if (!waiting) return;
		if (message.kind === 'progress') {
			waiting.onProgress(message);
			return;
		}
		this.#waiting.delete(message.number);
		if (message.kind === 'result') waiting.resolve(message.result);
		else waiting.reject(Object.assign(new Error('a question failed in its thread'), { stack: message.reason }));
	}

	#failAll(error: Error): void {
		this.#isOver = true;
		const all = [...this.#waiting.values()];
		this.#waiting.clear();
		for (const { reject } of all) reject(error);
	}
}

interface Waiting {
	readonly resolve: (result: Result<unknown>) => void;
	readonly reject: (error: Error) => void;
	readonly onProgress: (news: Progress) => void;
}

/** True where the worker is built; in development it may not be. */
export function hasWorker(): boolean {
	return existsSync(workerPath());
}

function workerFile(): string {
	if (!hasWorker()) throw new Error(`${workerPath()} is missing; npm run build makes it`);
	return workerPath();
}

/** The built program of the worker: DOORWRIGHT_WORKER, else where the build puts it. */
function workerPath(): string {
	return path.resolve(process.env['DOORWRIGHT_WORKER'] || 'build/worker/worker.js');
}
