import { counted, nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { type Case, type CheckInput, defineCheck } from './define-check';

export default defineCheck({
	code: 'over-capacity',
	severity: 'error',
	title: 'Controller over its capacity',
	why: 'What does not fit is refused by the controller, or fails when the last reader is powered.',
	mend: 'Move doors or readers to another controller, use fewer schedules on it, or correct its limits.',
	source: 'Rollout document, findings; ONVIF Schedule Service Specification 18.06, service capabilities',
	mendAt: ({ controller }) => `controllers?controller=${encodeURIComponent(String(controller))}`,
	find: (input) => input.rollout.controllers.flatMap(({ id }) => ofController(input, id)),
	message: ({ subject, facts }, rollout) => {
		const controller = nameOf(rollout.controllers, subject['controller']);
		const has = Number(facts?.['has']);
		const limit = String(facts?.['limit']);
		switch (subject['of']) {
			case 'module':
				return `Controller ${controller}: module ${String(facts?.['module'])} has ${counted(has, 'reader')}; it connects up to 2.`;
			case 'supply':
				return `Controller ${controller}: its readers draw ${has} mA; the supply gives ${limit} mA.`;
			case 'templates':
				return `Controller ${controller}: ${counted(has, 'person', 'people')} may open one of its doors that reads a finger; it holds ${limit} templates.`;
			default:
				return `Controller ${controller} has ${has} ${String(subject['of'])}; it holds ${limit}.`;
		}
	}
});

function ofController(input: CheckInput, id: string): Case[] {
	const { rollout } = input;
	const controller = rollout.controllers.find((one) => one.id === id);
	if (!controller) return [];
	const doors = rollout.doors.filter((door) => door.controller === id);
	const doorIds = new Set(doors.map((door) => door.id));
	const readers = readersOf(rollout, id);
	const draw = readers.reduce((sum, reader) => sum + reader.milliamps, 0);
	const amounts: readonly (readonly [of: string, has: () => number, limit: number | null])[] = [
		['doors', () => doors.length, controller.maxDoors],
		['templates', () => peopleWithTemplate(input, doorIds), controller.maxTemplates],
		['schedules', () => schedulesOn(rollout, doorIds), controller.maxSchedules],
		['holidays', () => holidaysInHorizon(rollout), controller.maxHolidays],
		['supply', () => draw, controller.supplyMilliamps]
	];
	const over = amounts.flatMap(([of, has, limit]): Case[] => {
		if (limit === null) return [];
		const amount = has();
		return amount > limit ? [{ subject: { controller: id, of }, count: amount, facts: { has: amount, limit } }] : [];
	});
	return [...over, ...modulesOf(id, readers)];
}

function readersOf(rollout: Rollout, controller: string): Rollout['readers'] {
	const controllerByDoor = new Map(rollout.doors.map((door) => [door.id, door.controller]));
	return rollout.readers.filter((reader) => (reader.controller ?? controllerByDoor.get(reader.door)) === controller);
}

function modulesOf(controller: string, readers: Rollout['readers']): Case[] {
	const countByModule = new Map<string, number>();
	for (const { module } of readers)
		if (module !== null) countByModule.set(module, (countByModule.get(module) ?? 0) + 1);
	const full = [...countByModule].filter(([, count]) => count > 2);
	const first = full[0];
	if (!first) return [];
	return [
		{ subject: { controller, of: 'module' }, count: full.length, facts: { module: first[0], has: first[1], limit: 2 } }
	];
}

function peopleWithTemplate({ rollout, access }: CheckInput, doorIds: ReadonlySet<string>): number {
	const places = rollout.doors.flatMap((door, place) =>
		doorIds.has(door.id) && door.identify !== 'card' ? [place] : []
	);
	let count = 0;
	for (const one of access.classes) {
		const { opened } = access.doorsOf(one);
		if (places.some((place) => opened[place] === 1)) count += one.people.length;
	}
	return count;
}

function schedulesOn(rollout: Rollout, doorIds: ReadonlySet<string>): number {
	const groups = new Set(
		rollout.doorGroups.filter((group) => group.doors.some((door) => doorIds.has(door))).map((group) => group.id)
	);
	const profiles = new Set(rollout.assignments.map((assignment) => assignment.accessProfile));
	const schedules = rollout.accessProfiles
		.filter((profile) => profiles.has(profile.id))
		.flatMap((profile) => profile.entries.filter((entry) => groups.has(entry.doorGroup)))
		.map((entry) => entry.schedule);
	return new Set(schedules).size;
}

function holidaysInHorizon(rollout: Rollout): number {
	const { from, until } = rollout.horizon;
	return new Set(rollout.holidays.days.map(({ date }) => date).filter((date) => from <= date && date <= until)).size;
}
