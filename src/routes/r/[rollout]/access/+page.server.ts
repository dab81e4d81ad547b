import { rolloutOf } from '$lib/server/http/change';
import { todayAt } from '$lib/server/clock';
import { askedView } from '$lib/server/views/asked';
import { dayReachOf } from '$lib/server/views/day-reach';
import { issuedBefore } from '$lib/server/views/grid-before';
import { gridPageOf } from '$lib/server/views/grid-page';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const at = (name: string) => url.searchParams.get(name);
	const before = issuedBefore(open);
	const shown = gridPageOf(open, url.searchParams, todayAt(rollout.site.timeZone), before?.rollout);
	const { week } = shown.grid;

	const asked = await askedView(open, url.searchParams, week.from, todayAt(rollout.site.timeZone));
	const person = rollout.people.find(({ id }) => id === asked.person?.id);
	return {
		...shown,
		comparedWith: before?.letter ?? null,
		asked,
		day: person ? dayReachOf(rollout, person, asked.moment, at('clock') === 'later') : null,
		areas: rollout.areas.map(({ id, name, outside }) => ({ id, name: name ?? id, isOutside: outside })),
		doors: rollout.doors.map(({ id, name, from, to, exit }) => ({
			id,
			name: name ?? id,
			from,
			to,
			isExitFree: exit === 'free'
		})),
		people: rollout.people.slice(0, 1000).map(({ id, name }) => (name === null ? id : `${name} (${id})`))
	};
};
