import { onlyTakes, refusalOf } from '$lib/server/api/respond';
import { eventStream } from '$lib/server/event-streams';
import { getJob, isOver, watchJob } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** The news of a job as server-sent events, the present state first; ends when the job is over. */
export const GET: RequestHandler = ({ params }) => {
	const job = getJob(params.rollout, params.job);
	if (!job.ok) return refusalOf(job);
	return eventStream((send) => {
		const watched = watchJob(params.rollout, params.job, (view) => send(view, isOver(view.state)));
		return watched.ok ? watched.value : () => undefined;
	});
};

export const fallback = onlyTakes('GET');
