import { error, json } from '@sveltejs/kit';
import { mostColumns, mostRows } from '$lib/components/access/grid-window';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import { issuedBefore } from '$lib/server/views/grid-before';
import { gridQueryOf } from '$lib/server/views/grid-query';
import { gridViewOf } from '$lib/server/views/grid-views';
import type { RequestHandler } from './$types';

/** A window of the grid of people by doors, for scrolling: the address of the sheet, and which rows and columns. */
export const GET: RequestHandler = ({ params, url }) => {
	const open = rolloutOf(params);
	const [top, count, left, width] = ['top', 'count', 'left', 'width'].map((name) => whole(url.searchParams.get(name)));
	if (top === undefined || left === undefined) error(400, 'Give top, count, left and width as whole numbers from 0.');
	const query = gridQueryOf(url.searchParams, open.rollout, todayAt(open.rollout.site.timeZone));
	const rows = { from: top, to: top + Math.min(count ?? mostRows, mostRows) };
	const columns = { from: left, to: left + Math.min(width ?? mostColumns, mostColumns) };
	const before = issuedBefore(open)?.rollout ?? null;
	return json(gridViewOf(open.rollout, query, before).window(open.revision, rows, columns));
};

function whole(text: string | null): number | undefined {
	return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : undefined;
}
