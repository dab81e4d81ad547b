import { randomUUID } from 'node:crypto';
import { faultsOfIssues } from '../../core/document/faults-of-issues';
import { fault } from '../../core/kernel/fault';
import { isSameJson } from '../../core/document/canonical';
import { needQuestion } from '../answers';
import { needRollout } from '../open-rollouts';
import { type Outcome, refuse } from '../outcome';
import { store } from '../store/current';
import { Job, type JobView } from './job';

/** How many run at once; more would only make each other slower. The others wait their turn. */
const mostAtOnce = 2;
/** How many that are over can still be looked up, and how many proposals of a rollout are kept besides those adopted. */
const mostOver = 50;
const mostProposals = 20;

const jobs = new Map<string, Job>();

/**
 * Starts long work on a rollout as it stands. The same question of the same revision that is already being worked on is
 * not started twice: the running one is given back.
 */
export async function startJob(
	rollout: string,
	answer: string,
	params: unknown,
	who: string
): Promise<Outcome<JobView>> {
	const open = needRollout(rollout);
	if (!open.ok) return open;
	const question = await needQuestion(answer);
	if (!question.ok) return question;
	const parsed = question.value.params.safeParse(params);
	if (!parsed.success) return refuse('invalid', faultsOfIssues(params, parsed.error.issues));
	const { revision, rollout: input } = open.value;
	const same = [...jobs.values()].find(
		(job) =>
			!job.isOver &&
			!job.view.isStoppedEarly &&
			job.view.rollout === rollout &&
			job.view.revision === revision &&
			job.view.answer === answer &&
			isSameJson(job.view.params, params)
	);
	if (same) return { ok: true, value: same.view };
	const id = randomUUID().slice(0, 8);
	const job = new Job({ id, rollout, revision, answer, params, who }, input, { keep, ended: runNext });
	jobs.set(id, job);
	forgetOldest();
	runNext();
	return { ok: true, value: job.view };
}

/** A job of a rollout. */
export function getJob(rollout: string, id: string): Outcome<JobView> {
	const job = findJob(rollout, id);
	return job ? { ok: true, value: job.view } : noJob(id);
}

/** The jobs of a rollout, the latest first. */
export function listJobs(rollout: string): readonly JobView[] {
	return [...jobs.values()].flatMap((job) => (job.view.rollout === rollout ? [job.view] : [])).reverse();
}

/** Asks a job to stop with the best that it has. */
export function stopJob(rollout: string, id: string): Outcome<JobView> {
	const job = findJob(rollout, id);
	if (!job) return noJob(id);
	job.stop();
	return { ok: true, value: job.view };
}

/** Calls back with a job's news, the present state first; `ended` news come last. Gives the function that ends it. */
export function watchJob(rollout: string, id: string, watcher: (view: JobView) => void): Outcome<() => void> {
	const job = findJob(rollout, id);
	return job ? { ok: true, value: job.watch(watcher) } : noJob(id);
}

/** Ends and forgets all work on a rollout: what it was asked and found may be about people who are removed. */
export async function forgetJobs(rollout: string): Promise<void> {
	const own = [...jobs.values()].filter((job) => job.view.rollout === rollout);
	for (const job of own) jobs.delete(job.view.id);
	await Promise.all(own.filter((job) => !job.isOver).map((job) => job.abandon()));
}

/** Ends all work at once, for the end of the server. */
export async function abandonJobs(): Promise<void> {
	const running = [...jobs.values()];
	jobs.clear();
	await Promise.all(running.map((job) => job.abandon()));
}

function keep(job: JobView, value: unknown): number | null {
	if (!needRollout(job.rollout).ok) return null;
	const number = store().proposals.add(job.rollout, {
		answer: job.answer,
		params: job.params,
		revision: job.revision,
		at: new Date().toISOString(),
		who: job.who,
		isStoppedEarly: job.isStoppedEarly,
		seconds: job.seconds,
		value
	});
	store().proposals.trim(job.rollout, mostProposals);
	return number;
}

function runNext(): void {
	const all = [...jobs.values()];
	const running = all.filter((job) => job.view.state === 'running' || job.view.state === 'stopping').length;
	for (const job of all.filter((one) => one.view.state === 'waiting').slice(0, Math.max(0, mostAtOnce - running))) {
		void job.run();
	}
}

function forgetOldest(): void {
	const over = [...jobs.values()].filter((job) => job.isOver);
	for (const job of over.slice(0, Math.max(0, over.length - mostOver))) jobs.delete(job.view.id);
}

function findJob(rollout: string, id: string): Job | undefined {
	const job = jobs.get(id);
	return job?.view.rollout === rollout ? job : undefined;
}

function noJob(id: string): Outcome<never> {
	return refuse('not-found', fault(['job'], id, 'the id of a job of this rollout since the server started'));
}
