import { isLocalDate } from '$lib/core/calendar/local-date';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import { sessionDates } from '$lib/server/views/plan';
import { mostSessions, sessionLists } from '$lib/server/views/session-lists';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const { stations } = rollout.enrollment;
	const today = todayAt(rollout.site.timeZone);
	const asked = (name: string) => url.searchParams.get(name)?.trim() || null;
	const day = asked('day');
	const isDay = day !== null && isLocalDate(day);
	const station = asked('station');
	const lane = Number(asked('lane')) || null;
	const choice = isDay ? { station, lane, from: day, until: day } : { station, lane, from: today, until: null };
	const lists = sessionLists(rollout, choice, today);
	const page = Math.max(1, Math.min(Number(asked('page')) || 1, Math.ceil(lists.length / mostSessions)));
	return {
		lists: lists.slice((page - 1) * mostSessions, page * mostSessions),
		count: lists.length,
		page,
		perPage: mostSessions,
		choice: { station, lane, day: isDay ? day : null },
		wrongDay: day !== null && !isDay ? day : null,
		today,
		days: sessionDates(rollout),
		stations: stations.map(({ id, name }) => ({ value: id, label: name ?? id })),
		lanes: Math.max(1, ...stations.map(({ lanes }) => lanes)),
		bookings: rollout.enrollment.bookings.length
	};
};
