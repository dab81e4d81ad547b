import { AccessOracle, isFreeExit } from './access-oracle';
import { type PlainDocument, type PlainDoor, all, byId, isWithin } from './plain-rollout';
import { plusDays } from './timeline';

/** A second answer to the questions `access`, `explain` and `compare`, minute by minute. */

export interface PlainSpan {
	readonly door: string;
	readonly from: string;
	readonly to: string;
}

/** `access`: the maximal spans in which a person may open doors, over a range of dates. */
export function accessOf(
	document: PlainDocument,
	question: { readonly person: string; readonly door?: string; readonly from: string; readonly until: string }
): readonly PlainSpan[] {
	const oracle = new AccessOracle(document, question.from, question.until);
	const person = byId(document.people, question.person);
	const { from, to } = oracle.minutesOfDates(question.from, question.until);
	return all(document.doors)
		.map((door) => door.id)
		.filter((door) => question.door === undefined || door === question.door)
		.sort()
		.flatMap((door) => {
			const may = oracle.mayOpen(person, door);
			const spans: PlainSpan[] = [];
			let start: number | undefined;
			for (let minute = from; minute <= to; minute++) {
				const isOpen = minute < to && may[minute] === 1;
				if (isOpen && start === undefined) start = minute;
				if (!isOpen && start !== undefined) {
					spans.push({ door, from: oracle.time.textOf(start), to: oracle.time.textOf(minute) });
					start = undefined;
				}
			}
			return spans;
		});
}

export interface PlainExplanation {
	readonly allowed: boolean;
	/** In no order that means anything. */
	readonly because: readonly Readonly<
		Record<'assignment' | 'accessProfile' | 'doorGroup' | 'schedule' | 'stretch' | 'date', string>
	>[];
	/** Doors walked from outside through this one, or null. */
	readonly routeLength: number | null;
	readonly nextAllowed: string | null;
	/** Everything that is true of the moment and keeps the door closed, each as `reason` or `reason assignment`. */
	readonly hindrances: ReadonlySet<string>;
}

/** `explain`, at a minute of the timeline of an oracle for the document. */
export function explanationOf(
	oracle: AccessOracle,
	personId: string,
	doorId: string,
	minute: number
): PlainExplanation {
	const { document, time } = oracle;
	const person = byId(document.people, personId);
	const door = byId(document.doors, doorId);
	const date = time.dateAt(minute);
	const may = oracle.mayOpen(person, doorId);
	const allowed = may[minute] === 1;
	const isEmployed = isWithin(date, person.startsOn, person.leavesOn);
	const hindrances = new Set<string>();
	if (!isEmployed) hindrances.add('not-employed');

	const because: PlainExplanation['because'][number][] = [];
	for (const assignment of all(document.assignments)) {
		const isMatched = oracle.matches(assignment, person);
		const isInForce = isWithin(date, assignment.from, assignment.until);
		if (!isMatched) hindrances.add(`not-matched ${assignment.id}`);
		if (!isInForce) hindrances.add(`assignment-not-in-force ${assignment.id}`);
		const entries = all(byId(document.accessProfiles, assignment.accessProfile).entries).filter((entry) =>
			all(byId(document.doorGroups, entry.doorGroup).doors).includes(doorId)
		);
		if (entries.length === 0) hindrances.add(`door-not-granted ${assignment.id}`);
		for (const entry of entries) {
			const schedule = byId(document.schedules, entry.schedule);
			const stretches = oracle.stretchesAt(schedule, minute);
			if (stretches.length === 0) hindrances.add(`${closedBy(oracle, schedule.id, date)} ${assignment.id}`);
			if (!isEmployed || !isMatched || !isInForce) continue;
			for (const stretch of stretches) {
				because.push({
					assignment: assignment.id,
					accessProfile: assignment.accessProfile,
					doorGroup: entry.doorGroup,
					schedule: entry.schedule,
					stretch: stretch.text,
					date: stretch.date
				});
			}
		}
	}
	const routeLength = allowed ? routeLengthOf(oracle, personId, door, minute) : null;
	if (allowed && routeLength === null) hindrances.add('no-route');

	const end = oracle.time.firstMinuteOf(plusDays(document.horizon.until, 1));
	let next = minute;
	while (next < end && may[next] !== 1) next++;
	return { allowed, because, routeLength, nextAllowed: allowed || next < end ? time.textOf(next) : null, hindrances };
}

/** Why a schedule that is closed on a date is closed. */
function closedBy(oracle: AccessOracle, scheduleId: string, date: string): string {
	const day = oracle.dayOf(byId(oracle.document.schedules, scheduleId), date);
	if (day === 'not-valid') return 'schedule-not-valid';
	if (day === 'undecided') return 'holiday-undecided';
	return day === 'ordinary' ? 'schedule-closed' : 'holiday-closed';
}

/** The fewest doors from outside through a door, breadth first by rounds of walking. */
function routeLengthOf(oracle: AccessOracle, personId: string, door: PlainDoor, minute: number): number | null {
	const { document } = oracle;
	const person = byId(document.people, personId);
	const mayOpen = (one: PlainDoor): boolean => oracle.mayOpen(person, one.id)[minute] === 1;
	let reached = new Set(
		all(document.areas)
			.filter((area) => area.outside === true)
			.map((area) => area.id)
	);
	for (let doorsWalked = 0; doorsWalked <= all(document.doors).length; doorsWalked++) {
		if (reached.has(door.from)) return doorsWalked + 1;
		const further = new Set(reached);
		for (const one of all(document.doors)) {
			if (reached.has(one.from) && mayOpen(one)) further.add(one.to);
			if (reached.has(one.to) && (isFreeExit(one) || mayOpen(one))) further.add(one.from);
		}
		reached = further;
	}
	return null;
}

/** True when a list of doors can be walked from outside at a minute, the last one from its `from` to its `to`. */
export function isWalkable(oracle: AccessOracle, personId: string, route: readonly string[], minute: number): boolean {
	const { document } = oracle;
	const person = byId(document.people, personId);
	let standing = new Set(
		all(document.areas)
			.filter((area) => area.outside === true)
			.map((area) => area.id)
	);
	for (const [index, id] of route.entries()) {
		const door = byId(document.doors, id);
		const mayOpen = oracle.mayOpen(person, id)[minute] === 1;
		const next = new Set<string>();
		if (standing.has(door.from) && mayOpen) next.add(door.to);
		const isLast = index === route.length - 1;
		if (!isLast && standing.has(door.to) && (isFreeExit(door) || mayOpen)) next.add(door.from);
		standing = next;
	}
	return route.length > 0 && standing.size > 0;
}

/** `compare`: for each pair of person and door that changes, the minutes gained and lost over the second's horizon. */
export function changesBetween(
	before: PlainDocument,
	after: PlainDocument
): ReadonlyMap<string, { readonly gained: number; readonly lost: number }> {
	const { from, until } = after.horizon;
	const [old, now] = [new AccessOracle(before, from, until), new AccessOracle(after, from, until)];
	const span = now.minutesOfDates(from, until);
	const shift = old.time.minuteOfText(now.time.textOf(span.from)) - span.from;
	const changes = new Map<string, { gained: number; lost: number }>();
	for (const person of idsOf(before.people, after.people)) {
		for (const door of idsOf(before.doors, after.doors)) {
			const may = [old, now].map((oracle) => {
				const known = all(oracle.document.people).find((one) => one.id === person);
				const hasDoor = all(oracle.document.doors).some((one) => one.id === door);
				return known !== undefined && hasDoor ? oracle.mayOpen(known, door) : new Uint8Array(oracle.time.length);
			});
			let gained = 0;
			let lost = 0;
			for (let minute = span.from; minute < span.to; minute++) {
				const was = may[0]?.[minute + shift] === 1;
				const is = may[1]?.[minute] === 1;
				if (is && !was) gained++;
				if (was && !is) lost++;
			}
			if (gained + lost > 0) changes.set(JSON.stringify([person, door]), { gained, lost });
		}
	}
	return changes;
}

function idsOf(...lists: (readonly { id: string }[] | null | undefined)[]): readonly string[] {
	return [...new Set(lists.flatMap((list) => all(list).map((entry) => entry.id)))];
}
