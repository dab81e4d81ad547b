import type { z } from 'zod';
import { amount, entry, id, listOf, maybe, oneOf, orElse, whole, words, yesOrNo } from './fields';

/** The building: areas, doors between them, door groups, controllers and readers. */

export const area = entry({
	id,
	name: maybe(words).describe('As people say it; the id where left out'),
	outside: orElse(yesOrNo, () => false).describe('Can always be reached, with no credential')
});

export const door = entry({
	id,
	name: maybe(words),
	from: id.describe('Area on the side with the reader'),
	to: id.describe('Area that the door leads to'),
	exit: orElse(oneOf(['free', 'reader']), () => 'free' as const).describe(
		'Back from `to` to `from`: free (request to exit, no credential) or by a reader'
	),
	identify: orElse(oneOf(['finger', 'finger-and-pin', 'card', 'card-and-finger']), () => 'finger' as const).describe(
		'What the reader asks for'
	),
	controller: maybe(id),
	owner: maybe(words).describe('Who answers for the door')
});

export const doorGroup = entry({ id, name: maybe(words), doors: listOf(id) });

export const controller = entry({
	id,
	name: maybe(words),
	maxDoors: maybe(whole()),
	maxTemplates: maybe(whole()),
	maxSchedules: maybe(whole()),
	maxHolidays: maybe(whole()),
	supplyMilliamps: maybe(amount()).describe('What its supply can give to readers; no limit where left out')
});

export const reader = entry({
	id,
	door: id,
	controller: maybe(id).describe("The door's controller where left out; another one is refused"),
	module: maybe(words).describe('What connects up to two readers to a controller'),
	milliamps: orElse(amount(), () => 0)
});

export const building = {
	areas: listOf(area),
	doors: listOf(door),
	doorGroups: listOf(doorGroup),
	controllers: listOf(controller),
	readers: listOf(reader)
};

export type Area = z.output<typeof area>;
export type Door = z.output<typeof door>;
export type DoorGroup = z.output<typeof doorGroup>;
export type Controller = z.output<typeof controller>;
export type Reader = z.output<typeof reader>;
