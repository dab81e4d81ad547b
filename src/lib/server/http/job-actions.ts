import { redirect } from '@sveltejs/kit';
import type { ActionFailure, RequestEvent } from '@sveltejs/kit';
import { getJob, listJobs, startJob, stopJob } from '$lib/server/jobs/jobs';
import { isOver } from '$lib/server/jobs/job';
import type { OpenRollout } from '$lib/server/open-rollouts';
import { getProposal, listProposals } from '$lib/server/proposals';
import { type Refused, refusedForm } from './change';
import { textIn } from './forms';

type LongAction = (event: RequestEvent) => Promise<ActionFailure<Refused>>;

/** Starts long work on a question with what the form says, and shows how it goes. */
export function startAction(answer: string, read: (form: FormData) => object): LongAction {
	return async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const outcome = await startJob(String(params['rollout']), answer, read(form), locals.actor);
		if (!outcome.ok) return refusedForm(outcome, form, url);
		redirect(303, `${url.pathname}?job=${outcome.value.id}`);
	};
}

/** Stops the long work that the field `job` names, with the best that it has. */
export const stopAction: LongAction = async ({ request, params, url }) => {
	const form = await request.formData();
	const outcome = stopJob(String(params['rollout']), textIn(form, 'job') ?? '');
	if (!outcome.ok) return refusedForm(outcome, form, url);
	redirect(303, `${url.pathname}?job=${outcome.value.id}`);
};

/** The long work on a question that is under way, or was just asked for, and the latest that was found. */
export function longWorkOf<Value>(open: OpenRollout, answer: string, url: URL) {
	const asked = url.searchParams.get('job');
	const named = asked === null ? undefined : getJob(open.id, asked);
	const running = listJobs(open.id).find((one) => one.answer === answer && !isOver(one.state));
	const job = (named?.ok && named.value.answer === answer ? named.value : running) ?? null;
	const number = job?.proposal ?? listProposals(open.id).find((one) => one.answer === answer)?.number;
	const found = number === undefined ? undefined : getProposal(open.id, number);
	return {
		job,
		found: found?.ok
			? {
					value: found.value.value as Value,
					number: found.value.number,
					adoptedBy: found.value.adoptedBy,
					params: found.value.params,
					seconds: found.value.seconds,
					isStoppedEarly: found.value.isStoppedEarly,
					isOutdated: found.value.revision !== open.revision
				}
			: null
	};
}
