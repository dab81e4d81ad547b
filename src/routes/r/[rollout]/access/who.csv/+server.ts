import { error } from '@sveltejs/kit';
import who from '$lib/core/answers/who';
import { nameOf } from '$lib/core/document/names';
import { csvPieces } from '$lib/core/exports/support/csv';
import { rolloutOf } from '$lib/server/http/change';
import { ask } from '$lib/server/rollouts';
import type { RequestHandler } from './$types';

/** Who may open a door at a moment, as a file: the answer "who" with the names of people and doors. */
export const GET: RequestHandler = async ({ params, url }) => {
	const open = rolloutOf(params);
	const outcome = await ask(open, who, Object.fromEntries(url.searchParams));
	if (!outcome.ok) error(422, outcome.faults.map(({ message }) => message).join(' '));
	const { at, people } = outcome.value;
	const rows = people.map(({ person, department, doors, canReach }) => [
		person,
		nameOf(open.rollout.people, person),
		department,
		doors.map((id) => nameOf(open.rollout.doors, id)).join(', '),
		canReach,
		at
	]);
	const header = ['person', 'name', 'department', 'doors', 'can get there', 'at'];
	return new Response([...csvPieces(header, rows)].join(''), {
		headers: {
			'content-type': 'text/csv; charset=utf-8',
			'content-disposition': `attachment; filename="who-${at.slice(0, 16).replace(':', '')}.csv"`
		}
	});
};
