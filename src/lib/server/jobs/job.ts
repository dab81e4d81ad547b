import type { Rollout } from '../../core/document/schema';
import type { Fault } from '../../core/kernel/fault';
import type { Result } from '../../core/kernel/result';
import { StopSign, Thread } from './thread';

/** `stopping`: asked to stop, not done yet; `stopped`: it was stopped before it began. */
export type JobState = 'waiting' | 'running' | 'stopping' | 'done' | 'refused' | 'stopped' | 'failed';

/** Long work as it is seen from outside: plain data, for JSON and event streams. */
export interface JobView extends JobStart {
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
	/** The rollout's id, and the revision of the document that is worked on. */
	readonly rollout: string;
	readonly revision: string;
	/** The question's name: `plan`. */
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
	readonly #sign = new StopSign();
	readonly #watchers = new Set<(view: JobView) => void>();
	#input: Rollout | undefined;
	#thread: Thread | undefined;
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

	/** Starts the thread; what goes wrong is told by the view. */
	async run(): Promise<void> {
		this.#startedAt = performance.now();
		this.#change({ state: 'running', startedAt: new Date().toISOString() });
		try {
			this.#finish(await this.#ask());
		} catch (error) {
			this.#fail(error);
		} finally {
			await this.#thread?.end();
		}
	}

	/** Asks it to stop with the best that it has; one that has not begun ends at once. */
	stop(): void {
		if (this.isOver) return;
		this.#sign.raise();
		if (this.#view.state === 'waiting') this.#end({ state: 'stopped', isStoppedEarly: true });
		else this.#change({ state: 'stopping', isStoppedEarly: true });
	}

	/** Ends it at once; nothing is kept. For the end of the server. */
	async abandon(): Promise<void> {
		this.#end({ state: 'failed', failure: 'The server ended.' });
		await this.#thread?.end();
	}

	/** Calls back at once and with every news until it is over, or until the function that comes back is called. */
	watch(watcher: (view: JobView) => void): () => void {
		watcher(this.view);
		if (!this.isOver) this.#watchers.add(watcher);
		return () => this.#watchers.delete(watcher);
	}

	#ask(): Promise<Result<unknown>> {
		const { answer, params, revision } = this.#view;
		const rollout = this.#input as Rollout;
		// The thread has its own copy; a document in memory for every job that is over would add up.
		this.#input = undefined;
		this.#thread = new Thread();
		return this.#thread.ask({ answer, params, key: revision, rollout }, this.#sign, ({ done, total, note }) =>
			this.#change({ done, total, note })
		);
	}

	#finish(result: Result<unknown>): void {
		if (this.isOver) return;
		if (result.ok) this.#end({ state: 'done', proposal: this.#hooks.keep(this.view, result.value) });
		else this.#end({ state: 'refused', faults: result.faults });
	}

	/** What went wrong on our side is told by a number, under which the log says more. */
	#fail(error: unknown): void {
		if (this.isOver) return;
		const number = this.#view.id;
		const cause = error instanceof Error ? (error.stack ?? error.message) : String(error);
		process.stderr.write(`failure ${number} in the job ${this.#view.answer} of ${this.#view.rollout}\n${cause}\n`);
		this.#end({ state: 'failed', failure: `Something went wrong on our side (${number}).` });
	}

	#change(news: Partial<JobView>): void {
		if (this.isOver) return;
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
