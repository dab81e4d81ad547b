import { existsSync } from 'node:fs';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Rollout } from '../../core/document/schema';
import type { Fault } from '../../core/kernel/fault';
import type { Message, Order } from './protocol';

/** `stopping`: asked to stop, not done yet; `stopped`: it was stopped before it began. */
export type JobState = 'waiting' | 'running' | 'stopping' | 'done' | 'refused' | 'stopped' | 'failed';

/** Long work as it is seen from outside: plain data, for JSON and event streams. */
export interface JobView {
	readonly id: string;
	/** The rollout's id, and the revision of the document that is worked on. */
	readonly rollout: string;
	readonly revision: string;
	/** The question's name: `plan`. */
	readonly answer: string;
	readonly params: unknown;
	readonly who: string;
	/** Instant, ISO 8601 in UTC. */
	readonly startedAt: string;
	readonly state: JobState;
	/** Steps finished, of how many, and what it is at. `total` is 0 until it is known. */
	readonly done: number;
	readonly total: number;
	readonly note: string | null;
	/** Seconds worked so far, or in all. */
	readonly seconds: number;
	/** Somebody asked to stop: what is found is the best until then. */
	readonly isStoppedEarly: boolean;
	/** The number of the proposal with the answer, when done. */
	readonly proposal: number | null;
	/** Why it was refused, or what went wrong. */
	readonly faults: readonly Fault[];
	readonly failure: string | null;
}

export interface JobStart {
	readonly id: string;
	readonly rollout: string;
	readonly revision: string;
	readonly answer: string;
	readonly params: unknown;
	readonly who: string;
}

/** What a job reports to whoever keeps it. */
export interface JobHooks {
	/** Keeps the answer and gives the number of the proposal, null when the rollout is gone. */
	keep(job: JobView, value: unknown): number | null;
	/** Called once when nothing more will come. */
	ended(): void;
}

/** One piece of long work in a thread of its own. */
export class Job {
	readonly #hooks: JobHooks;
	#input: Rollout | undefined;
	readonly #stop = new SharedArrayBuffer(4);
	readonly #watchers = new Set<(view: JobView) => void>();
	#worker: Worker | undefined;
	#startedAt = 0;
	#view: JobView;

	constructor(start: JobStart, input: Rollout, hooks: JobHooks) {
		this.#hooks = hooks;
		this.#input = input;
		this.#view = {
			...start,
			startedAt: new Date().toISOString(),
			state: 'waiting',
			done: 0,
			total: 0,
			note: null,
			seconds: 0,
			isStoppedEarly: false,
			proposal: null,
			faults: [],
			failure: null
		};
	}

	get view(): JobView {
		const isWorking = this.#view.state === 'running' || this.#view.state === 'stopping';
		return isWorking ? { ...this.#view, seconds: this.#secondsSpent() } : this.#view;
	}

	get isOver(): boolean {
		return isOver(this.#view.state);
	}

	/** Starts the thread. */
	run(): void {
		this.#startedAt = performance.now();
		try {
			const worker = this.#begin();
			this.#change({ state: 'running', startedAt: new Date().toISOString() });
			worker.on('message', (message: Message) => this.#hear(message));
			worker.once('error', (error) => this.#fail(error));
			worker.once('exit', (status) => this.#fail(`the work ended with status ${status}`));
		} catch (error) {
			this.#fail(error);
		}
	}

	#begin(): Worker {
		const { answer, params } = this.#view;
		const order: Order = { answer, params, rollout: this.#input as Rollout, stop: this.#stop };
		// The thread has its own copy; a document in memory for every job that is over would add up.
		this.#input = undefined;
		return (this.#worker = new Worker(workerFile(), { workerData: order }));
	}

	/** Asks it to stop with the best that it has; one that has not begun ends at once. */
	stop(): void {
		if (this.isOver) return;
		Atomics.store(new Int32Array(this.#stop), 0, 1);
		if (this.#view.state === 'waiting') this.#end({ state: 'stopped', isStoppedEarly: true });
		else this.#change({ state: 'stopping', isStoppedEarly: true });
	}

	/** Ends it at once; nothing is kept. For the end of the server. */
	async abandon(): Promise<void> {
		const worker = this.#worker;
		this.#fail('the server ended');
		await worker?.terminate();
	}

	/** Calls back at once and with every news until it is over, or until the function that comes back is called. */
	watch(watcher: (view: JobView) => void): () => void {
		watcher(this.view);
		if (!this.isOver) this.#watchers.add(watcher);
		return () => this.#watchers.delete(watcher);
	}

	#hear(message: Message): void {
		if (this.isOver) return;
		if (message.kind === 'progress') {
			this.#change({ done: message.done, total: message.total, note: message.note });
		} else if (message.kind === 'refusal') {
			this.#end({ state: 'refused', faults: message.faults });
		} else {
			this.#keep(message.value);
		}
	}

	#keep(value: unknown): void {
		try {
			this.#end({ state: 'done', proposal: this.#hooks.keep(this.view, value) });
		} catch (error) {
			this.#fail(error);
		}
	}

	#fail(error: unknown): void {
		this.#end({ state: 'failed', failure: error instanceof Error ? error.message : String(error) });
	}

	#change(news: Partial<JobView>): void {
		this.#view = { ...this.#view, ...news };
		for (const watcher of this.#watchers) watcher(this.view);
	}

	#end(news: Partial<JobView>): void {
		if (this.isOver) return;
		this.#change({ seconds: this.#startedAt === 0 ? 0 : this.#secondsSpent(), ...news });
		this.#watchers.clear();
		this.#hooks.ended();
	}

	#secondsSpent(): number {
		return Math.round((performance.now() - this.#startedAt) / 10) / 100;
	}
}

/** True for a state after which nothing more comes. */
export function isOver(state: JobState): boolean {
	return state !== 'waiting' && state !== 'running' && state !== 'stopping';
}

/** The built program of the worker: DOORWRIGHT_WORKER, else where `npm run build` puts it. */
function workerFile(): string {
	const file = path.resolve(process.env['DOORWRIGHT_WORKER'] || 'build/worker/worker.js');
	if (!existsSync(file)) throw new Error(`${file} is missing; npm run build makes it`);
	return file;
}
