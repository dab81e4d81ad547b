import { error, json } from '@sveltejs/kit';
import { isLocalDate } from '$lib/core/calendar/local-date';
import { rolloutOf } from '$lib/server/http/change';
import { dayDesk } from '$lib/server/views/day-desk';
import { bookingsView, sessionDates } from '$lib/server/views/plan';
import type { RequestHandler } from './$types';

/** The timetable of a date, for carrying a booking there. */
export const GET: RequestHandler = ({ params, url }) => {
	const date = url.searchParams.get('date') ?? '';
	if (!isLocalDate(date)) error(400, 'Give the date as 2027-01-11.');
	const { rollout } = rolloutOf(params);
	const { bookings, unbooked } = bookingsView(rollout);
	return json(dayDesk(rollout, date, bookings, unbooked, sessionDates(rollout)));
};
