import type { z } from 'zod';
import { type CollectionName, collections } from './collections';
import * as building from './schema-building';
import * as enrollment from './schema-enrollment';
import * as privacy from './schema-privacy';
import type { RolloutDocument } from './schema';
import * as when from './schema-when';
import * as who from './schema-who';
import { fieldOf } from './walk';

/**
 * Looking into and changing a document by the name of a list or a part, without copying what stays as it is: a changed
 * document shares every untouched object with the one before, which is how the store and the reader tell what changed.
 */

/** The schema of one entry of each list. */
export const entrySchemas = {
	areas: building.area,
	doors: building.door,
	doorGroups: building.doorGroup,
	controllers: building.controller,
	readers: building.reader,
	schedules: when.schedule,
	holidays: when.holiday,
	people: who.person,
	shiftPatterns: who.shiftPattern,
	absences: who.absence,
	accessProfiles: who.accessProfile,
	assignments: who.assignment,
	waves: enrollment.wave,
	captureClasses: enrollment.captureClass,
	stations: enrollment.station,
	walks: enrollment.walk,
	awayLimits: enrollment.awayLimit,
	bookings: enrollment.booking,
	visits: enrollment.visit,
	notices: privacy.notice,
	consents: privacy.consent,
	templates: privacy.template,
	holds: privacy.hold,
	templatePlaces: privacy.templatePlace,
	erasureOrders: privacy.erasureOrder,
	requests: privacy.request
} satisfies Record<CollectionName, z.ZodType>;

/** An entry of a list as it is written. */
export type EntryOf<Name extends CollectionName> = z.input<(typeof entrySchemas)[Name]>;

/** The names of all lists, in the order of the document. */
export const collectionNames = Object.keys(collections) as readonly CollectionName[];

/** The keys from the root to a list. */
export function stepsOf(name: CollectionName): readonly string[] {
	return collections[name].path.split('.');
}

/** The entries of a list as they are written; empty where the list is left out or null. */
export function entriesOf<Name extends CollectionName>(
	document: RolloutDocument,
	name: Name
): readonly EntryOf<Name>[] {
	const value = valueAt(document, stepsOf(name));
	return Array.isArray(value) ? (value as EntryOf<Name>[]) : [];
}

/** The document with other entries in a list; every other list and part stays the same object. */
export function withEntries<Name extends CollectionName>(
	document: RolloutDocument,
	name: Name,
	entries: readonly EntryOf<Name>[]
): RolloutDocument {
	return withValue(document, stepsOf(name), entries);
}

/** The place of the entry with an id in a list of entries, -1 where there is none. */
export function indexOfId(entries: readonly unknown[], id: string): number {
	return entries.findIndex((entry) => fieldOf(entry, 'id') === id);
}

/** What stands at a path of keys, undefined where nothing does. */
export function valueAt(root: unknown, steps: readonly string[]): unknown {
	return steps.reduce<unknown>((value, step) => fieldOf(value, step), root);
}

/** True when the list at a path of keys joined by dots is the same object in a document and in the one before it. */
export function isSameList(root: unknown, before: unknown, path: string): boolean {
	const steps = path.split('.');
	const list = valueAt(root, steps);
	return Array.isArray(list) && list === valueAt(before, steps);
}

/** The document with another value at a path of keys; undefined takes the key away. Missing objects on the way are made. */
export function withValue(document: RolloutDocument, steps: readonly string[], value: unknown): RolloutDocument {
	return replaced(document, steps, value) as RolloutDocument;
}

/** As `withValue`, of any object. */
export function replaced(root: unknown, [step, ...rest]: readonly string[], value: unknown): unknown {
	if (step === undefined) return value;
	const before: Record<string, unknown> =
		typeof root === 'object' && root !== null && !Array.isArray(root) ? (root as Record<string, unknown>) : {};
	const below = replaced(fieldOf(before, step), rest, value);
	if (below !== undefined) return { ...before, [step]: below };
	return Object.fromEntries(Object.entries(before).filter(([key]) => key !== step));
}
