import { error } from '@sveltejs/kit';
import check from '$lib/core/answers/check';
import { nameOf } from '$lib/core/document/names';
import { rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { numberIn, textIn } from '$lib/server/http/forms';
import { ask } from '$lib/server/rollouts';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { controllers, readers, doors } = open.rollout;
	const found = await ask(open, check, {});
	if (!found.ok) error(422, found.faults[0]?.message ?? '');
	const controllerOf = (reader: (typeof readers)[number]) =>
		reader.controller ?? doors.find(({ id }) => id === reader.door)?.controller ?? null;
	return {
		controllers: controllers.map((controller) => {
			const own = readers.filter((reader) => controllerOf(reader) === controller.id);
			return {
				...controller,
				doors: doors.filter((door) => door.controller === controller.id).length,
				readers: own.length,
				milliamps: own.reduce((sum, reader) => sum + reader.milliamps, 0),
				findings: found.value.findings
					.filter(({ code, subject }) => code === 'over-capacity' && subject['controller'] === controller.id)
					.map(({ message }) => message)
			};
		}),
		readers: readers.map((reader) => {
			const on = controllerOf(reader);
			return { ...reader, on: on === null ? null : nameOf(controllers, on) };
		}),
		doors: doors.map(({ id, name, controller }) => ({ value: id, label: name ?? id, controller })),
		chosen: {
			controller: controllers.find(({ id }) => id === url.searchParams.get('controller')) ?? null,
			reader: readers.find(({ id }) => id === url.searchParams.get('reader')) ?? null
		}
	};
};

export const actions: Actions = {
	putController: putAction('controllers', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		maxDoors: numberIn(form, 'maxDoors'),
		maxTemplates: numberIn(form, 'maxTemplates'),
		maxSchedules: numberIn(form, 'maxSchedules'),
		maxHolidays: numberIn(form, 'maxHolidays'),
		supplyMilliamps: numberIn(form, 'supplyMilliamps')
	})),
	removeController: removeAction('controllers'),
	putReader: putAction('readers', (form) => ({
		id: textIn(form, 'id') ?? '',
		door: textIn(form, 'door') ?? '',
		module: textIn(form, 'module'),
		milliamps: numberIn(form, 'milliamps')
	})),
	removeReader: removeAction('readers')
};
