import explain from '$lib/core/answers/explain';
import { AccessModel } from '$lib/core/access/model';
import { rolloutOf } from '$lib/server/http/change';
import { ask } from '$lib/server/rollouts';
import { todayAt } from '$lib/server/clock';
import { weekOf } from '$lib/server/views/week-of';
import { findPerson, momentOf, reachAt, whoAt } from '$lib/server/views/who-at';
import { columnKinds, columnsOf, filteredPeople, gridRows, rowKinds, rowsOfPeople } from '$lib/server/views/who-grid';
import { reasonOf } from '$lib/server/views/who-reason';
import type { PageServerLoad } from './$types';

/** Rows on one page. */
const perPage = 40;

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const at = (name: string) => url.searchParams.get(name);
	const kind = rowKinds.find((one) => one === at('rows')) ?? 'department';
	const columnKind = columnKinds.find((one) => one === at('columns')) ?? 'groups';
	const week = weekOf(rollout, at('week'), todayAt(rollout.site.timeZone));
	const model = new AccessModel(rollout, week);
	const filter = Object.fromEntries(
		(['department', 'job', 'wave', 'assignment', 'find'] as const).map((name) => [name, at(name)])
	);
	const rows = rowsOfPeople(rollout, filteredPeople(model, filter), kind);
	const page = Math.min(
		Math.max(1, Math.floor(Number(at('page') ?? 1)) || 1),
		Math.max(1, Math.ceil(rows.length / perPage))
	);
	const columns = columnsOf(model, columnKind);
	const shown = rows.slice((page - 1) * perPage, page * perPage);
	const [row, column] = [rows.find(({ key }) => key === at('row')), columns.find(({ id }) => id === at('column'))];

	const person = findPerson(rollout, at('person'));
	const door = rollout.doors.find(({ id }) => id === at('door')) ?? null;
	const moment = momentOf(rollout, at('at'), week.from, person, door?.id ?? null);
	const explained = person && door ? await ask(open, explain, { person: person.id, door: door.id, at: moment }) : null;
	return {
		grid: { kind, columnKind, week, page, perPage, count: rows.length, columns, rows: gridRows(model, shown, columns) },
		filter,
		reason: row && column ? reasonOf(model, row, column) : null,
		cell: { row: shown.findIndex((one) => one === row), column: columns.findIndex((one) => one === column) },
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
