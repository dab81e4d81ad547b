import { redirect } from '@sveltejs/kit';
import { findExplainedAt } from '$lib/core/checks/support/explained-at';
import { rolloutOf } from '$lib/server/http/change';
import type { RequestHandler } from './$types';

/** From a finding to the explanation of its person, its door and its first moment; found when asked for, not for each line. */
export const GET: RequestHandler = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const { code = '', ...subject } = Object.fromEntries(url.searchParams);
	const asked = findExplainedAt(rollout, code, subject);
	const sheet = url.pathname.replace(/\/why$/, '');
	// A finding that is mended meanwhile has no moment any more: the person is shown.
	const about = asked ?? { person: subject['person'] ?? '', door: subject['door'] ?? null, at: null };
	const query = new URLSearchParams({ person: about.person });
	if (about.door !== null) query.set('door', about.door);
	if (about.at !== null) query.set('at', about.at);
	redirect(303, `${sheet}?${query.toString()}#ask`);
};
