import { type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../calendar/local-date-time';
import { type SpanSet, contains, firstEndingAfter, intersection } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import type { Assignment, Person, Rollout } from '../document/schema';
import { detailOf, noRouteWords, notEmployedWords, notMatchedWords } from './block-details';
import { doorsWalkedTo, stepsFromOutside } from './building';
import { type Chain, byNearness, chainsOf } from './chains';
import { findMissingDoors } from './missing-doors';
import { type AccessClass, AccessModel } from './model';
import { isEmployedOn } from './shifts';

/** Why a door opens: one stretch of one grant that holds at the moment asked for. */
export interface Because {
	readonly assignment: string;
	readonly accessProfile: string;
	readonly doorGroup: string;
	readonly schedule: string;
	/** As written in the document. */
	readonly stretch: string;
	/** The date on which the stretch began. */
	readonly date: LocalDate;
}

export type BlockReason =
	| 'not-employed'
	| 'not-matched'
	| 'assignment-not-in-force'
	| 'door-not-granted'
	| 'schedule-closed'
	| 'holiday-closed'
	| 'holiday-undecided'
	| 'schedule-not-valid'
	| 'no-route';

export interface Block {
	readonly assignment?: string;
	readonly reason: BlockReason;
	readonly detail: string;
}

/** Whether a person may open a door at a moment, why, by which route, and when next. Instants as RFC 3339 text. */
export interface Explanation {
	readonly allowed: boolean;
	readonly because: readonly Because[];
	/** The nearest reason first; `chains.ts` says what is nearer. */
	readonly blockedBy: readonly Block[];
	readonly route: readonly string[] | null;
	readonly nextAllowed: string | null;
}

/** An explanation with what it was made from, for drawing it. */
export interface ExplainedAccess {
	readonly explanation: Explanation;
	/** The ways from the person to the door: those that hold, in the order of the document, then the broken ones, nearest first. */
	readonly chains: readonly Chain[];
	/** Doors on the nearest way to this one that do not open then; empty where it can be reached, null where no way leads there. */
	readonly missingDoors: readonly string[] | null;
	/** The first moment, before the horizon ends, at which the door opens and can be reached; null where there is none. */
	readonly nextReachable: string | null;
}

/**
 * Explains whether a person may open a door at a local moment. The person and the door must be of the rollout. A time that
 * a clock change skips or repeats is read as RFC 5545, section 3.3.5 says.
 */
export function explainAccess(rollout: Rollout, person: Person, doorId: string, at: LocalDateTime): Explanation {
	return explainInDepth(rollout, person, doorId, at).explanation;
}

/** As `explainAccess`, with every way from the person to the door. */
export function explainInDepth(rollout: Rollout, person: Person, doorId: string, at: LocalDateTime): ExplainedAccess {
	const wall = wallTimeOf(at);
	const date = dateOf(wall.day);
	const model = new AccessModel(
		rollout,
		{
			from: date < rollout.horizon.from ? date : rollout.horizon.from,
			until: date > rollout.horizon.until ? date : rollout.horizon.until
		},
		[person]
	);
	return explainAtInstant(model, person, doorId, model.zone.instantOf(wall));
}

/** As `explainInDepth`, in a model that holds the person, at an instant of its range. */
export function explainAtInstant(model: AccessModel, person: Person, doorId: string, moment: Instant): ExplainedAccess {
	const { rollout, building, zone } = model;
	const door = building.doorPlaceById.get(doorId);
	const one = model.findClass(person.id);
	if (door === undefined || !one) throw new Error(`no person ${person.id} or no door ${doorId}`);

	const chains = one.assignments
		.flatMap((place) => chainsOf(model, rollout.assignments[place] as Assignment, doorId, moment))
		.sort((a, b) => (a.broken.length === 0 && b.broken.length === 0 ? 0 : byNearness(a, b)));
	const isEmployed = isEmployedOn(person, zone.dayAt(moment));
	const because = isEmployed ? chains.flatMap(becauseOf) : [];
	const allowed = because.length > 0;
	const mayOpen = (place: number) => contains(model.doorSpansOf(one, place), moment);
	const from = building.doors[door]?.from as number;
	const steps = stepsFromOutside(building, mayOpen);
	const route = allowed && steps.has(from) ? [...doorsWalkedTo(steps, from), door] : null;
	const idOf = (place: number) => building.doors[place]?.id as string;
	const missingDoors = findMissingDoors(building, mayOpen, from)?.map(idOf) ?? null;
	const noRoute: Block = { reason: 'no-route', detail: noRouteWords(rollout, doorId, missingDoors) };
	const blockedBy = allowed ? (route ? [] : [noRoute]) : blocksOf(model, chains, person, doorId, moment);
	const spans = model.doorSpansOf(one, door);
	return {
		explanation: {
			allowed,
			because,
			blockedBy,
			route: route?.map(idOf) ?? null,
			nextAllowed: allowed ? zone.textOf(moment) : firstIn(model, spans, moment)
		},
		chains,
		missingDoors,
		nextReachable: route ? zone.textOf(moment) : firstIn(model, reachableSpans(model, one, door), moment)
	};
}

function becauseOf({ broken, stretch, date, doorGroup, schedule, ...of }: Chain): Because[] {
	if (broken.length > 0 || stretch === null || date === null || doorGroup === null || schedule === null) return [];
	return [{ assignment: of.assignment, accessProfile: of.accessProfile, doorGroup, schedule, stretch, date }];
}

/** One reason for each assignment and schedule, the nearest first. */
function blocksOf(
	model: AccessModel,
	chains: readonly Chain[],
	person: Person,
	doorId: string,
	moment: Instant
): readonly Block[] {
	const today = model.zone.dayAt(moment);
	if (!isEmployedOn(person, today)) return [{ reason: 'not-employed', detail: notEmployedWords(person, today) }];
	if (chains.length === 0) {
		return [{ reason: 'not-matched', detail: notMatchedWords(model, person, doorId, moment) }];
	}
	const told = new Map<string, Block>();
	for (const chain of chains) {
		const [reason] = chain.broken;
		if (reason === undefined) continue;
		const block = { assignment: chain.assignment, reason, detail: detailOf(model, chain, doorId, moment) };
		const key = JSON.stringify([chain.assignment, chain.schedule]);
		if (!told.has(key)) told.set(key, block);
	}
	// What does not depend on the schedule would be told for each of them in the same words.
	return [...new Map([...told.values()].map((block) => [JSON.stringify(block), block])).values()];
}

function reachableSpans(model: AccessModel, one: AccessClass, door: number): SpanSet {
	const from = model.building.doors[door]?.from as number;
	return intersection(model.doorSpansOf(one, door), model.reachOf(one)[from] ?? []);
}

/** The first instant of a set at or after a moment and before the horizon ends. */
function firstIn(model: AccessModel, spans: SpanSet, moment: Instant): string | null {
	const next = spans[firstEndingAfter(spans, moment)];
	const end = model.zone.midnightOf(plusDays(epochDayOf(model.rollout.horizon.until), 1));
	if (!next) return null;
	const at = Math.max(next.from, moment) as Instant;
	return at < end ? model.zone.textOf(at) : null;
}
