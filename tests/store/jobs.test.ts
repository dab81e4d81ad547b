import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { closeEventStreams } from '../../src/lib/server/event-streams';
import { abandonJobs } from '../../src/lib/server/jobs/jobs';
import { endSharedThread } from '../../src/lib/server/jobs/run-question';
import {
	type JobView,
	adoptProposal,
	answer,
	discardProposal,
	editRollout,
	getProposal,
	getRollout,
	importDocument,
	isOver,
	listJobs,
	listProposals,
	startJob,
	stopJob,
	watchJob
} from '../../src/lib/server/rollouts';
import { prepare } from '../../src/tools/prepare.mjs';
import { call, responseOf } from '../support/api';
import { useDataFolder } from '../support/data-folder';
import { refusalOf, valueOf } from '../support/outcomes';
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
	const { json } = valueOf(await answer(id, 'check', {}));
	expect(valueOf(getProposal(id, 1)).value).toEqual(JSON.parse([...json].join('')));
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

describe('a plan', () => {
	test('that is stopped keeps the best until then', async () => {
		const job = valueOf(await startJob(id, 'plan', { seconds: 600 }, 'Nora'));
		expect(valueOf(stopJob(id, job.id))).toMatchObject({ state: 'stopping', isStoppedEarly: true });
		const last = (await newsOf(job)).at(-1);
		expect(last).toMatchObject({ state: 'done', isStoppedEarly: true, proposal: 1 });
		expect(last?.seconds).toBeLessThan(300);
		expect(valueOf(getProposal(id, 1))).toMatchObject({
			isStoppedEarly: true,
			value: { bookings: expect.any(Array) as [] }
		});
	});

	test('is adopted as one change, and only for the state that it was made for unless that is wanted', async () => {
		const before = getRollout(id);
		const planned = await newsOf(valueOf(await startJob(id, 'plan', { seconds: 1 }, 'Nora')));
		expect(planned.at(-1)).toMatchObject({ state: 'done', proposal: 1 });
		const { bookings } = valueOf(getProposal(id, 1)).value as { bookings: unknown[] };
		valueOf(editRollout(id, 'set-bookings', { bookings: [] }, 'Otto'));
		expect(refusalOf(adoptProposal(id, 1, 'Nora'))).toMatchObject({ why: 'conflict', paths: ['$.ifRevision'] });
		const { open, change } = valueOf(adoptProposal(id, 1, 'Nora', true));
		expect(bookings.length).toBeGreaterThan(0);
		expect(open.document.enrollment?.bookings).toEqual(bookings);
		expect(change).toMatchObject({ number: 3, who: 'Nora', edit: 'set-bookings' });
		expect(listProposals(id)).toMatchObject([{ number: 1, adoptedBy: 3, revision: before?.revision }]);
		expect(refusalOf(discardProposal(id, 1))).toMatchObject({ why: 'conflict' });
	});

	test('that is not wanted is discarded; what is no plan cannot be adopted', async () => {
		await newsOf(valueOf(await startJob(id, 'check', {}, 'Nora')));
		expect(refusalOf(adoptProposal(id, 1, 'Nora'))).toMatchObject({ why: 'conflict', paths: ['$.proposal'] });
		valueOf(discardProposal(id, 1));
		expect(listProposals(id)).toEqual([]);
		expect(refusalOf(adoptProposal(id, 1, 'Nora'))).toMatchObject({ why: 'not-found' });
	});
});

describe('a question about a large rollout', () => {
	const people = Array.from({ length: 1_600 }, (_, n) => ({
		id: String(n),
		name: `Person ${n}`,
		department: n % 2 ? 'Packing' : 'Office',
		workAreas: ['hall']
	}));
	const large = smallSite({ people, absences: [], assignments: [], enrollment: {}, privacy: {} });
	afterEach(async () => {
		delete process.env['DOORWRIGHT_WORKER'];
		await endSharedThread();
	});

	/** The answers to two questions, one of which is refused, asked of a rollout that was never asked before. */
	async function answers(): Promise<unknown> {
		const { id: own } = valueOf(importDocument(JSON.stringify(large), 'Nora'));
		const asked = { door: 'main', at: '2027-01-11T08:00' };
		const [found, refused] = [
			await answer(own, 'check', {}),
			await answer(own, 'explain', { ...asked, person: '9999999' })
		];
		return JSON.parse(JSON.stringify([found, refused])) as unknown;
	}

	test('is answered in another thread as it is in this one', async () => {
		const inThread = await answers();
		process.env['DOORWRIGHT_WORKER'] = 'not/built';
		expect(inThread).toEqual(await answers());
		expect(inThread).toMatchObject([{ ok: true }, { ok: false, why: 'invalid', faults: [{ path: '$.person' }] }]);
	});
});

describe('over HTTP', () => {
	const at = '/api/v1/rollouts/mill-lane-depot';
	const start = (answer: string, params: unknown) =>
		call('POST', `${at}/jobs`, {
			body: JSON.stringify({ answer, params }),
			headers: { 'content-type': 'application/json' }
		});

	test('a job is started, followed as events, and its proposal fetched and adopted', async () => {
		const started = await start('plan', { seconds: 1 });
		expect(started.status).toBe(202);
		const address = started.headers.get('location') ?? '';
		const events = await call('GET', `${address}/events`);
		expect(events.headers.get('content-type')).toBe('text/event-stream');
		const views = events.text
			.split('\n\n')
			.flatMap((event) => (event.startsWith('data: ') ? [JSON.parse(event.slice(6)) as JobView] : []));
		expect(views[0]?.state).toBe('running');
		expect(views.at(-1)).toMatchObject({ state: 'done', proposal: 1 });
		expect((await call('GET', address)).json).toEqual(views.at(-1));
		expect((await call('GET', `${at}/jobs`)).json).toMatchObject({ jobs: [{ state: 'done' }] });
		expect((await call('GET', `${at}/proposals`)).json).toMatchObject({ proposals: [{ number: 1 }] });
		const { value } = (await call('GET', `${at}/proposals/1`)).json as { value: { bookings: unknown[] } };
		expect((await call('POST', `${at}/proposals/1/adopt`)).status).toBe(200);
		expect(getRollout(id)?.document.enrollment?.bookings).toEqual(value.bookings);
		expect((await call('DELETE', `${at}/proposals/1`)).status).toBe(409);
	});

	test('a wrong start is refused with every fault', async () => {
		expect(await start('plan', { seconds: 'ten', seeds: 1 })).toMatchObject({
			status: 422,
			json: { faults: [{ path: '$.seconds' }, { path: '$.seeds' }] }
		});
		expect((await start('plann', {})).status).toBe(404);
	});

	test('open event streams close when the server ends', async () => {
		const { json: job } = await start('plan', { seconds: 600 });
		const response = await responseOf('GET', `${at}/jobs/${(job as JobView).id}/events`);
		closeEventStreams();
		expect(await response.text()).toContain('"state":"running"');
	});
});
