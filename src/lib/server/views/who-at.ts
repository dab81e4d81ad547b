import { AccessModel } from '$lib/core/access/model';
import { type LocalDate, dateOf, epochDayOf } from '$lib/core/calendar/local-date';
import { type LocalDateTime, isLocalDateTime, localDateTimeOf, wallTimeOf } from '$lib/core/calendar/local-date-time';
import { clip, contains, firstEndingAfter } from '$lib/core/calendar/spans';
import type { Instant } from '$lib/core/calendar/zone';
import { nameOf } from '$lib/core/document/names';
import type { Person, Rollout } from '$lib/core/document/schema';
import type { CellBar } from '$lib/components/access/grid';
import { barsOf } from './week-of';

/** A door that a person may open at a moment, and whether they can get to it. */
export interface OpenDoorView {
	readonly id: string;
	readonly name: string;
	readonly canReach: boolean;
}

/** The areas that a person can reach at a local moment, by id; and on that date the hours of one door. */
export function reachAt(
	rollout: Rollout,
	person: Person,
	at: LocalDateTime,
	doorId: string | null
): { reachable: string[]; doorBars: CellBar[]; openDoors: OpenDoorView[] } {
	const { model, moment } = modelAt(rollout, at, [person]);
	const one = model.findClass(person.id);
	if (!one) return { reachable: [], doorBars: [], openDoors: [] };
	const reach = model.reachOf(one);
	const door = doorId === null ? undefined : model.building.doorPlaceById.get(doorId);
	const spans = door === undefined ? [] : clip(model.doorSpansOf(one, door), model.range.from, model.range.to);
	return {
		reachable: model.building.areaIds.filter((_, area) => contains(reach[area] ?? [], moment)),
		doorBars: barsOf(spans, model),
		openDoors: model.building.doors.flatMap(({ id, from }, place) => {
			if (!contains(model.doorSpansOf(one, place), moment)) return [];
			return [{ id, name: nameOf(rollout.doors, id), canReach: contains(reach[from] ?? [], moment) }];
		})
	};
}

function modelAt(rollout: Rollout, at: LocalDateTime, people?: readonly Person[]) {
	const wall = wallTimeOf(at);
	const date = dateOf(wall.day);
	const model = new AccessModel(rollout, { from: date, until: date }, people);
	return { model, moment: model.zone.instantOf(wall) };
}

/**
 * The moment that is asked about: the one given; else the first at which the person may open the door from a date on,
 * within the horizon; else eight in the morning of that date.
 */
export function momentOf(
	rollout: Rollout,
	asked: string | null,
	from: LocalDate,
	person: Person | null,
	doorId: string | null
): LocalDateTime {
	if (asked !== null && isLocalDateTime(asked) && asked > '0002' && asked < '9998') return asked;
	const morning = localDateTimeOf({ day: epochDayOf(from), minute: 480 });
	if (person === null || doorId === null) return morning;
	const model = new AccessModel(rollout, undefined, [person]);
	const [one, door] = [model.findClass(person.id), model.building.doorPlaceById.get(doorId)];
	if (!one || door === undefined) return morning;
	const spans = clip(model.doorSpansOf(one, door), model.range.from, model.range.to);
	const monday = model.zone.midnightOf(epochDayOf(from));
	const span = spans[firstEndingAfter(spans, monday)] ?? spans[0];
	if (!span) return morning;
	const first = span.from < monday && span.to > monday ? monday : span.from;
	return localDateTimeOf(model.zone.wallTimeAt(first as Instant));
}

/** A person by what was typed: an id, `Name (id)`, or a name that only one bears. */
export function findPerson(rollout: Rollout, typed: string | null): Person | null {
	const text = typed?.trim() ?? '';
	if (text === '') return null;
	const id = /\(([^()]+)\)$/.exec(text)?.[1];
	const byId = rollout.people.find((person) => person.id === text) ?? rollout.people.find((person) => person.id === id);
	if (byId) return byId;
	const named = rollout.people.filter((person) => person.name?.toLowerCase() === text.toLowerCase());
	return named.length === 1 ? (named[0] ?? null) : null;
}
