import { randomUUID } from 'node:crypto';
import compareGroups from '../../core/answers/compare-groups';
import type { GroupFilter } from '../../core/access/compare-groups';
import type { ToldGroups } from '../../core/access/told-groups';
import type { Rollout } from '../../core/document/schema';
import { unwatched } from '../../core/kernel/work';
import { type Progress, Thread, hasWorker } from './thread';

/**
 * Comparisons that are being worked out, or were. Each large one has a thread of its own, so that it shows how far it is and
 * can be stopped at once; they take turns. Kept are the latest few, in memory only.
 */

export interface StateToCompare {
	readonly key: string;
	readonly rollout: Rollout;
}

export interface ComparingView {
	readonly id: string;
	readonly state: 'waiting' | 'running' | 'done' | 'stopped' | 'failed';
	readonly done: number;
	readonly total: number;
	readonly note: string | null;
	readonly value: ToldGroups | null;
}

/** From so many people on, a comparison may take seconds. */
const manyPeople = 1_000;
const mostKept = 12;

class Comparing {
	readonly id = randomUUID().slice(0, 8);
	#state: ComparingView['state'] = 'waiting';
	#progress: Progress = { done: 0, total: 0, note: null };
	#value: ToldGroups | null = null;
	#thread: Thread | undefined;
	readonly key: string;
	readonly #before: Rollout;
	readonly #after: Rollout;
	readonly #filter: GroupFilter;

	constructor(key: string, before: Rollout, after: Rollout, filter: GroupFilter) {
		this.key = key;
		this.#before = before;
		this.#after = after;
		this.#filter = filter;
	}

	get view(): ComparingView {
		return { id: this.id, state: this.#state, ...this.#progress, value: this.#value };
	}

	async run(): Promise<void> {
		if (this.#state !== 'waiting') return;
		this.#state = 'running';
		try {
			const result = await this.#ask();
			if (this.view.state !== 'running') return;
			if (!result.ok) throw new Error(JSON.stringify(result.faults));
			this.#value = result.value as ToldGroups;
			this.#state = 'done';
		} catch (error) {
			if (this.view.state !== 'running') return;
			this.#state = 'failed';
			const cause = error instanceof Error ? (error.stack ?? error.message) : String(error);
			process.stderr.write(`failure ${this.id} in a comparison\n${cause}\n`);
		} finally {
			await this.#thread?.end();
		}
	}

	async stop(): Promise<void> {
		if (this.#state !== 'waiting' && this.#state !== 'running') return;
		this.#state = 'stopped';
		await this.#thread?.end();
	}

	#ask() {
		const [before, after] = [this.#before, this.#after];
		const params = { with: after, ...this.#filter };
		if (!isLong(before, after)) return compareGroups.run(before, params, unwatched);
		this.#thread = new Thread();
		const asked = { answer: compareGroups.name, params, key: this.id, rollout: before };
		return this.#thread.ask(asked, undefined, (news) => {
			this.#progress = { done: news.done, total: news.total, note: news.note };
		});
	}
}

const comparings: Comparing[] = [];
let turn: Promise<void> = Promise.resolve();

/** The comparison of two states, begun where it is not yet known; given back as it stands. Keys name the states. */
export async function compareStates(
	[before, after]: readonly [StateToCompare, StateToCompare],
	filter: GroupFilter
): Promise<ComparingView> {
	const { person, door, department, does } = filter;
	const key = JSON.stringify([before.key, after.key, person, door, department, does]);
	const known = comparings.find((one) => one.key === key && one.view.state !== 'failed');
	if (known) return known.view;
	const own = new Comparing(key, before.rollout, after.rollout, filter);
	comparings.push(own);
	for (const oldest of comparings.splice(0, Math.max(0, comparings.length - mostKept))) void oldest.stop();
	const isOver = isLong(before.rollout, after.rollout) ? (turn = turn.then(() => own.run())) : own.run();
	// Most are there before anybody would have looked at how far they are.
	await Promise.race([isOver, new Promise((resolve) => setTimeout(resolve, 800))]);
	return own.view;
}

/** Stops a comparison at once. */
export async function stopComparing(id: string): Promise<void> {
	await comparings.find((one) => one.id === id)?.stop();
}

/** Forgets a comparison that was stopped, so that it can be begun again. */
export function forgetStopped(id: string): void {
	const place = comparings.findIndex((one) => one.id === id && one.view.state === 'stopped');
	if (place >= 0) comparings.splice(place, 1);
}

/** Ends all, for the end of the server. */
export async function endComparings(): Promise<void> {
	await Promise.all(comparings.splice(0).map((one) => one.stop()));
}

function isLong(before: Rollout, after: Rollout): boolean {
	// In development the worker may not be built; then everybody waits.
	return hasWorker() && Math.max(before.people.length, after.people.length) >= manyPeople;
}
