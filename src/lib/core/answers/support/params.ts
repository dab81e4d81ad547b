import { z } from 'zod';
import { type LocalDate, isLocalDate } from '../../calendar/local-date';
import { date, dateTime } from '../../document/fields';
import type { Rollout } from '../../document/schema';
import { type Fault, fault } from '../../kernel/fault';
import { nearestName } from '../../kernel/nearest';

/** Parameters that several questions take. */
export const personId = z.string({ error: "a person's id" }).describe('Id of a person');
export const doorId = z.string({ error: "a door's id" }).describe('Id of a door');
export const dateParam = date;
export const dateTimeParam = dateTime;

/** A fault when a parameter names no entry of a list; empty otherwise. */
export function unknownId(
	param: string,
	id: string,
	what: string,
	entries: readonly { readonly id: string; readonly name: string | null }[]
): Fault[] {
	if (entries.some((entry) => entry.id === id)) return [];
	const ids = entries.map((entry) => entry.id);
	const byName = entries.find((entry) => entry.name?.toLowerCase() === id.toLowerCase())?.id;
	return [fault([param], id, `the id of ${what}`, byName ?? nearestName(id, ids))];
}

/**
 * Faults that a question would tell of the parameters that several take, for a caller that cannot ask it yet, and still
 * wants to tell everything at once. Parameters that are malformed are passed over.
 */
export function paramFaults(rollout: Rollout, params: Readonly<Record<string, unknown>>): Fault[] {
	const { person, door, from, until } = params;
	return [
		...(typeof person === 'string' ? unknownId('person', person, 'a person', rollout.people) : []),
		...(typeof door === 'string' ? unknownId('door', door, 'a door', rollout.doors) : []),
		...(isDate(from) && isDate(until) ? wrongRange(from, until) : [])
	];
}

function isDate(value: unknown): value is LocalDate {
	return typeof value === 'string' && isLocalDate(value);
}

/** A fault when `until` lies before `from`, or more than 50 years after it; empty otherwise. */
export function wrongRange(from: string, until: string): Fault[] {
	if (until < from) return [fault(['until'], until, `a date on or after from, ${from}`)];
	const years = Number(until.slice(0, 4)) - Number(from.slice(0, 4));
	return years > 50 ? [fault(['until'], until, `a date at most 50 years after from, ${from}`)] : [];
}
