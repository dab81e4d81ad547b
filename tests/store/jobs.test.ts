import { afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { abandonJobs } from '../../src/lib/server/jobs/jobs';
import {
	answer,
	importDocument,
	isOver,
	listJobs,
	startJob,
	stopJob,
	watchJob,
	type JobView
} from '../../src/lib/server/rollouts';
import { getProposal, listProposals } from '../../src/lib/server/rollouts';
import { prepare } from '../../src/tools/prepare.mjs';
import { useDataFolder } from '../support/data-folder';
import { valueOf, refusalOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

let data: ReturnType<typeof useDataFolder>;
let id: string;

beforeAll(() => prepare(['worker']), 120_000);
beforeEach(() => {
	data = useDataFolder();
	id = valueOf(importDocument(JSON.stringify(smallSite()), 'Nora')).id;
});
afterEach(async () => {
	await abandonJobs();
	data.end();
});

/** Every news of a job until it is over. */
function newsOf(job: JobView): Promise<JobView[]> {
	return new Promise((resolve) => {
		const news: JobView[] = [];
		valueOf(
			watchJob(id, job.id, (view) => {
				news.push(view);
				if (isOver(view.state)) resolve(news);
			})
		);
	});
}

test('a job answers in a thread of its own what the core answers, and the answer becomes a proposal', async () => {
	const job = valueOf(await startJob(id, 'check', {}, 'Nora'));
	expect(job).toMatchObject({ rollout: id, answer: 'check', who: 'Nora', isStoppedEarly: false });
	const news = await newsOf(job);
	const last = news.at(-1);
	expect(last).toMatchObject({ state: 'done', proposal: 1, faults: [], failure: null });
	expect(last?.total).toBeGreaterThan(0);
	expect(valueOf(getProposal(id, 1)).value).toEqual(valueOf(await answer(id, 'check', {})));
	expect(listProposals(id)).toMatchObject([{ number: 1, answer: 'check', isStoppedEarly: false, adoptedBy: null }]);
});

test('parameters are looked at before anything starts', async () => {
	expect(refusalOf(await startJob(id, 'check', { on: 'today' }, 'Nora'))).toMatchObject({
		why: 'invalid',
		paths: ['$.on']
	});
	expect(refusalOf(await startJob(id, 'chekc', {}, 'Nora'))).toMatchObject({ why: 'not-found', paths: ['$.answer'] });
	expect(refusalOf(await startJob('nowhere', 'check', {}, 'Nora'))).toMatchObject({ why: 'not-found' });
	expect(listJobs(id)).toEqual([]);
});

test('what the question itself refuses is told as faults', async () => {
	const asked = { person: '9999', door: 'main', at: '2027-01-11T08:00' };
	const last = (await newsOf(valueOf(await startJob(id, 'explain', asked, 'Nora')))).at(-1);
	expect(last).toMatchObject({ state: 'refused', proposal: null });
	expect(last?.faults.map((one) => one.path)).toEqual(['$.person']);
	expect(listProposals(id)).toEqual([]);
});

test('the same question of the same state is not started twice, and a third kind of work waits its turn', async () => {
	const params = (person: string) => ({ person, door: 'main', at: '2027-01-11T08:00' });
	const first = valueOf(await startJob(id, 'explain', params('1001'), 'Nora'));
	expect(valueOf(await startJob(id, 'explain', params('1001'), 'Otto')).id).toBe(first.id);
	const second = valueOf(await startJob(id, 'explain', params('1002'), 'Otto'));
	const third = valueOf(await startJob(id, 'explain', params('1003'), 'Otto'));
	expect([first.state, second.state, third.state]).toEqual(['running', 'running', 'waiting']);
	expect((await newsOf(third)).at(-1)?.state).toBe('done');
	expect(listJobs(id).map((job) => job.id)).toEqual([third.id, second.id, first.id]);
});

test('a job that waits is stopped before it begins', async () => {
	const params = (person: string) => ({ person, door: 'main', at: '2027-01-11T08:00' });
	await startJob(id, 'explain', params('1001'), 'Nora');
	await startJob(id, 'explain', params('1002'), 'Nora');
	const third = valueOf(await startJob(id, 'explain', params('1003'), 'Nora'));
	expect(valueOf(stopJob(id, third.id))).toMatchObject({ state: 'stopped', isStoppedEarly: true });
	expect(refusalOf(stopJob(id, 'nothing'))).toMatchObject({ why: 'not-found' });
});
