import explain from '$lib/core/answers/explain';
import { rolloutOf } from '$lib/server/http/change';
import { ask } from '$lib/server/rollouts';
import { todayAt } from '$lib/server/clock';
import { gridPageOf } from '$lib/server/views/grid-page';
import { findPerson, momentOf, reachAt, whoAt } from '$lib/server/views/who-at';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const at = (name: string) => url.searchParams.get(name);
	const shown = gridPageOf(open, url.searchParams, todayAt(rollout.site.timeZone));
	const { week } = shown.grid;

	const person = findPerson(rollout, at('person'));
	const door = rollout.doors.find(({ id }) => id === at('door')) ?? null;
	const moment = momentOf(rollout, at('at'), week.from, person, door?.id ?? null);
	const explained = person && door ? await ask(open, explain, { person: person.id, door: door.id, at: moment }) : null;
	return {
		...shown,
		asked: {
			person: person && { id: person.id, name: person.name ?? person.id, workAreas: person.workAreas },
			unknown: at('person') && !person ? at('person') : null,
			door: door && { id: door.id, name: door.name ?? door.id },
			moment,
			explanation: explained?.ok ? explained.value : null,
			openers: door && !person ? whoAt(rollout, door.id, moment) : null,
			reach: person && reachAt(rollout, person, moment, door?.id ?? null)
		},
		areas: rollout.areas.map(({ id, name, outside }) => ({ id, name: name ?? id, isOutside: outside })),
		doors: rollout.doors.map(({ id, name, from, to, exit }) => ({
			id,
			name: name ?? id,
			from,
			to,
			isExitFree: exit === 'free'
		})),
		people: rollout.people.slice(0, 1000).map(({ id, name }) => (name === null ? id : `${name} (${id})`)),
		names: {
			groups: Object.fromEntries(rollout.doorGroups.map(({ id, name }) => [id, name ?? id])),
			schedules: Object.fromEntries(rollout.schedules.map(({ id, name }) => [id, name ?? id])),
			profiles: Object.fromEntries(rollout.accessProfiles.map(({ id, name }) => [id, name ?? id]))
		}
	};
};
