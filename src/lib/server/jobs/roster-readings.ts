import type { LocalDate } from '../../core/calendar/local-date';
import { fault } from '../../core/kernel/fault';
import { type Result, refused } from '../../core/kernel/result';
import { unwatched } from '../../core/kernel/work';
import type { OpenRollout } from '../open-rollouts';
import type { RosterDraft } from '../roster-drafts';
import { originsEntered } from '../roster-origins';
import { type RosterPreview, previewRoster } from '../roster-preview';
import { type Progress, Thread, hasWorker } from './thread';

/**
 * Lists of people that are being read, or were. A large one has a thread of its own, so that everybody else is served meanwhile,
 * how far it is shows, and it can be stopped at once. Kept are the latest few, in memory only, as the lists themselves.
 */
export type ReadingView =
	| { readonly state: 'running'; readonly progress: Progress }
	| { readonly state: 'stopped' }
	| { readonly state: 'over'; readonly result: Result<RosterPreview> };

/** From so many bytes, or people at the site, reading may take long enough to be noticed. */
const long = { bytes: 400_000, people: 3_000 };
const mostKept = 6;
/** Most are there before anybody would have looked at how far they are. */
const milliseconds = 700;

class Reading {
	readonly draft: RosterDraft;
	readonly key: string;
	#view: ReadingView = { state: 'running', progress: { done: 0, total: 0, note: null } };
	#thread: Thread | undefined;
	readonly over: Promise<void>;

	constructor(key: string, open: OpenRollout, draft: RosterDraft, today: LocalDate) {
		this.key = key;
		this.draft = draft;
		this.over = this.#run(open, today);
	}

	get view(): ReadingView {
		return this.#view;
	}

	async stop(): Promise<void> {
		if (this.#view.state !== 'running') return;
		this.#view = { state: 'stopped' };
		await this.#thread?.end();
	}

	async #run(open: OpenRollout, today: LocalDate): Promise<void> {
		const { bytes, said } = this.draft;
		const input = { bytes, said, origins: originsEntered(open.id), today };
		try {
			const result = isLong(open, bytes)
				? ((await this.#ask(open, input)) as Result<RosterPreview>)
				: previewRoster(open, input, unwatched);
			if (this.#view.state === 'running') this.#view = { state: 'over', result };
		} catch (error) {
			if (this.#view.state !== 'running') return;
			const cause = error instanceof Error ? (error.stack ?? error.message) : String(error);
			process.stderr.write(`failure while the list ${this.draft.id} was read\n${cause}\n`);
			const told = fault(
				['roster'],
				this.draft.fileName,
				'a list that can be read here; something went wrong on our side'
			);
			this.#view = { state: 'over', result: refused([told]) };
		} finally {
			await this.#thread?.end();
		}
	}

	#ask({ rollout, revision }: OpenRollout, params: unknown): Promise<Result<unknown>> {
		this.#thread = new Thread();
		return this.#thread.ask({ answer: 'preview-roster', params, key: revision, rollout }, undefined, (progress) => {
			if (this.#view.state === 'running') this.#view = { state: 'running', progress };
		});
	}
}

const readings: Reading[] = [];

/** A list as it is previewed, begun where it is not known yet; told as it stands after a moment. */
export async function readingOf(open: OpenRollout, draft: RosterDraft, today: LocalDate): Promise<ReadingView> {
	const reading = begin(open, draft, today);
	await Promise.race([reading.over, new Promise((resolve) => setTimeout(resolve, milliseconds))]);
	return reading.view;
}

/** The preview of a list, waited for to the end. */
export async function previewOf(
	open: OpenRollout,
	draft: RosterDraft,
	today: LocalDate
): Promise<Result<RosterPreview>> {
	const reading = begin(open, draft, today);
	await reading.over;
	if (reading.view.state === 'over') return reading.view.result;
	return refused([fault(['roster'], draft.fileName, 'a list that is read to the end; reading it was stopped')]);
}

/** Stops reading a list at once, and forgets what was read of it. */
export async function stopReading(draft: string): Promise<void> {
	const own = readings.filter((one) => one.draft.id === draft);
	for (const one of own) readings.splice(readings.indexOf(one), 1);
	await Promise.all(own.map((one) => one.stop()));
}

/** Whether reading takes long enough that how far it is should be shown. */
export function isLong({ rollout }: Pick<OpenRollout, 'rollout'>, bytes: Uint8Array): boolean {
	// In development the worker may not be built; then everybody waits.
	return hasWorker() && (bytes.length >= long.bytes || rollout.people.length >= long.people);
}

function begin(open: OpenRollout, draft: RosterDraft, today: LocalDate): Reading {
	const key = JSON.stringify([draft.id, open.id, open.revision, open.lastChange, draft.said, today]);
	const known = readings.find((one) => one.key === key && one.view.state !== 'stopped');
	if (known) return known;
	const own = new Reading(key, open, draft, today);
	readings.push(own);
	for (const oldest of readings.splice(0, Math.max(0, readings.length - mostKept))) void oldest.stop();
	return own;
}
