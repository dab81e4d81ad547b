import { paramsOfQuery } from '$lib/server/api/query';
import { receiveJson } from '$lib/server/api/receive';
import { onlyTakes, refusalOf, respondAnswer } from '$lib/server/api/respond';
import { needQuestion } from '$lib/server/answers';
import { answer } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Answers a question; its parameters are in the address. */
export const GET: RequestHandler = async ({ params, url }) => {
	const question = await needQuestion(params.name);
	if (!question.ok) return refusalOf(question);
	const asked = paramsOfQuery(question.value.params, url.searchParams);
	return respondAnswer(await answer(params.rollout, params.name, asked));
};

/** Answers a question; its parameters are sent as JSON. */
export const POST: RequestHandler = async ({ params, request }) => {
	const received = await receiveJson(request);
	return received.ok ? respondAnswer(await answer(params.rollout, params.name, received.value)) : received.response;
};

export const fallback = onlyTakes('GET', 'POST');
