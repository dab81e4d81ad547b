import { AccessOracle, type Grant } from './access-oracle';
import { plusDays } from './timeline';
import { type Day, type PlainDocument, type PlainSchedule, all, byId, isGiven, isWithin } from './plain-rollout';

/**
 * Every finding of a document, each code straight from its line in the table of the command line's description. What
 * the official list of public holidays says is handed in.
 */

export interface PlainFinding {
	readonly code: string;
	readonly severity: 'error' | 'warning' | 'note';
	readonly subject: Readonly<Record<string, string | readonly string[]>>;
	readonly dates: readonly string[];
	/** Null where the description of the finding does not say what is counted. */
	readonly count: number | null;
}

const severities: Readonly<Record<string, PlainFinding['severity']>> = {
	'schedule-overlap': 'error',
	'holiday-undecided': 'error',
	'holiday-calendar-short': 'error',
	'holiday-repeated': 'error',
	'holiday-missing': 'warning',
	'holiday-lockout': 'error',
	'shift-not-covered': 'error',
	'no-route': 'error',
	'area-unreachable': 'error',
	'grant-overlap': 'note',
	'person-without-access': 'warning',
	'assignment-matches-nobody': 'warning',
	'door-in-no-group': 'warning',
	'group-empty': 'warning',
	'schedule-unused': 'note',
	'profile-unassigned': 'note',
	'clock-change': 'note',
	'exit-needs-reader': 'warning',
	'over-capacity': 'error'
};

const days: readonly Day[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** All findings, in no order that means anything. */
export function findingsOf(
	document: PlainDocument,
	officialHolidays: readonly string[] = [],
	oracle = new AccessOracle(document)
): readonly PlainFinding[] {
	return [
		...scheduleOverlaps(document),
		...holidaysUndecided(oracle),
		...holidayList(document, officialHolidays),
		...shifts(oracle),
		...noRoutes(oracle),
		...areasUnreachable(document),
		...grantOverlaps(oracle),
		...peopleWithoutAccess(oracle),
		...loneEntries(oracle),
		...clockChanges(oracle),
		...capacities(oracle)
	];
}

function finding(
	code: string,
	subject: PlainFinding['subject'],
	dates: Iterable<string> = [],
	count?: number | null
): PlainFinding {
	const sorted = [...new Set(dates)].sort();
	return {
		code,
		severity: severities[code] ?? 'error',
		subject,
		dates: sorted,
		count: count === undefined ? Math.max(1, sorted.length) : count
	};
}

/** The minutes of a day, and of the day after it, that each stretch of a list takes. */
function nominal(text: string): {
	readonly own: readonly [number, number];
	readonly carried: readonly [number, number];
} {
	const [from = 0, to = 0] = text.split('-').map((time) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3)));
	return to <= from ? { own: [from, 1440], carried: [0, to] } : { own: [from, to], carried: [0, 0] };
}

function doShareMinute(pieces: readonly (readonly [number, number])[]): boolean {
	const taken = new Uint8Array(1440);
	for (const [from, to] of pieces) {
		for (let minute = from; minute < to; minute++) {
			if (taken[minute] === 1) return true;
			taken[minute] = 1;
		}
	}
	return false;
}

function scheduleOverlaps({ schedules }: PlainDocument): PlainFinding[] {
	return all(schedules).flatMap((schedule) => {
		const overlapping: string[] = days.filter((day, index) => {
			const before = days[(index + 6) % 7] ?? 'sun';
			return doShareMinute([
				...all(schedule.week?.[day]).map((text) => nominal(text).own),
				...all(schedule.week?.[before]).map((text) => nominal(text).carried)
			]);
		});
		for (const [kind, treatment] of Object.entries(schedule.holidays ?? {})) {
			if (!Array.isArray(treatment)) continue;
			const stretches = treatment.map(nominal);
			const isOverlapping =
				doShareMinute(stretches.map(({ own }) => own)) || doShareMinute(stretches.map(({ carried }) => carried));
			if (isOverlapping) overlapping.push(kind);
		}
		return overlapping.map((day) => finding('schedule-overlap', { schedule: schedule.id, day }, [], null));
	});
}

/** The schedules in an entry of a profile that some assignment names, in force or not. */
function assignedSchedules({ schedules, assignments, accessProfiles }: PlainDocument): readonly PlainSchedule[] {
	const ids = all(assignments).flatMap(({ accessProfile }) =>
		all(byId(accessProfiles, accessProfile).entries).map((entry) => entry.schedule)
	);
	return all(schedules).filter((schedule) => ids.includes(schedule.id));
}

function holidaysUndecided(oracle: AccessOracle): PlainFinding[] {
	const { document, time } = oracle;
	return assignedSchedules(document).flatMap((schedule) => {
		const datesByKind = new Map<string, string[]>();
		for (const date of time.dates) {
			if (!isWithin(date, document.horizon.from, document.horizon.until)) continue;
			if (oracle.dayOf(schedule, date) !== 'undecided') continue;
			const kind = oracle.kindOf(date) ?? '';
			datesByKind.set(kind, [...(datesByKind.get(kind) ?? []), date]);
		}
		return [...datesByKind].map(([kind, dates]) =>
			finding('holiday-undecided', { schedule: schedule.id, kind }, dates)
		);
	});
}

function holidayList({ holidays, horizon }: PlainDocument, officialHolidays: readonly string[]): PlainFinding[] {
	const listed = all(holidays?.days).map((day) => day.date);
	const repeated = listed.filter((date, index) => listed.indexOf(date) !== index);
	const coveredUntil = holidays?.coveredUntil;
	const isShort = !isGiven(coveredUntil) || coveredUntil < horizon.until;
	return [
		...(isShort ? [finding('holiday-calendar-short', {})] : []),
		...(repeated.length > 0 ? [finding('holiday-repeated', {}, repeated)] : []),
		...officialHolidays
			.filter((date) => isWithin(date, horizon.from, horizon.until) && !listed.includes(date))
			.map((date) => finding('holiday-missing', {}, [date]))
	];
}

function shifts(oracle: AccessOracle): PlainFinding[] {
	return all(oracle.document.people).flatMap((person) => {
		if (all(person.workAreas).length === 0) return [];
		const lockouts: string[] = [];
		const others: string[] = [];
		for (const shift of oracle.checkedShifts(person)) {
			const uncovered = oracle.uncoveredMinutes(person, shift);
			if (uncovered.length === 0) continue;
			const isOnHoliday = uncovered.some((minute) => oracle.kindOf(oracle.time.dateAt(minute)) !== undefined);
			(isOnHoliday ? lockouts : others).push(shift.date);
		}
		return [
			...(lockouts.length > 0 ? [finding('holiday-lockout', { person: person.id }, lockouts, lockouts.length)] : []),
			...(others.length > 0 ? [finding('shift-not-covered', { person: person.id }, others, others.length)] : [])
		];
	});
}

function noRoutes(oracle: AccessOracle): PlainFinding[] {
	const { document } = oracle;
	return all(document.people).flatMap((person) =>
		all(document.doors).flatMap((door) => {
			if (byId(document.areas, door.from).outside === true) return [];
			const may = oracle.mayOpen(person, door.id);
			let mayEver = false;
			for (const minute of oracle.horizonMinutes()) {
				if (may[minute] !== 1) continue;
				mayEver = true;
				if (oracle.canReach(person, door.from, minute)) return [];
			}
			return mayEver ? [finding('no-route', { person: person.id, door: door.id })] : [];
		})
	);
}

function areasUnreachable({ areas, doors }: PlainDocument): PlainFinding[] {
	const reached = new Set(
		all(areas)
			.filter((area) => area.outside === true)
			.map((area) => area.id)
	);
	for (let before = -1; before !== reached.size;) {
		before = reached.size;
		for (const { from, to } of all(doors)) {
			if (reached.has(from)) reached.add(to);
			if (reached.has(to)) reached.add(from);
		}
	}
	return all(areas)
		.filter((area) => !reached.has(area.id))
		.map((area) => finding('area-unreachable', { area: area.id }));
}

function grantOverlaps(oracle: AccessOracle): PlainFinding[] {
	const { document } = oracle;
	const found = new Map<string, { subject: PlainFinding['subject']; people: Set<string> }>();
	for (const door of all(document.doors)) {
		for (const person of all(document.people)) {
			const grants = oracle
				.grantsOf(person, door.id)
				.map((grant) => ({ grant, open: oracle.openByGrant(person, grant) }));
			for (const [index, one] of grants.entries()) {
				for (const other of grants.slice(index + 1)) {
					const isShared = oracle.horizonMinutes().some((minute) => one.open[minute] === 1 && other.open[minute] === 1);
					if (!isShared) continue;
					const assignments = pairOf(one.grant, other.grant);
					const key = JSON.stringify([door.id, assignments]);
					const entry = found.get(key) ?? { subject: { door: door.id, assignments }, people: new Set() };
					entry.people.add(person.id);
					found.set(key, entry);
				}
			}
		}
	}
	return [...found.values()].map(({ subject, people }) => finding('grant-overlap', subject, [], people.size));
}

function pairOf(one: Grant, other: Grant): readonly string[] {
	return [...new Set([one.assignment.id, other.assignment.id])].sort();
}

function peopleWithoutAccess(oracle: AccessOracle): PlainFinding[] {
	const { document, time } = oracle;
	return all(document.people)
		.filter((person) => {
			const isEmployed = time.dates.some(
				(date) =>
					isWithin(date, document.horizon.from, document.horizon.until) &&
					isWithin(date, person.startsOn, person.leavesOn)
			);
			return isEmployed && !all(document.doors).some((door) => oracle.mayEverOpen(person, door.id));
		})
		.map((person) => finding('person-without-access', { person: person.id }));
}

/** What stands in the document and leads nowhere, and the doors that need a reader to leave. */
function loneEntries(oracle: AccessOracle): PlainFinding[] {
	const { assignments, people, doors, doorGroups, schedules, accessProfiles } = oracle.document;
	const groupedDoors = all(doorGroups).flatMap((group) => all(group.doors));
	const usedSchedules = all(accessProfiles).flatMap((profile) => all(profile.entries).map((entry) => entry.schedule));
	const assignedProfiles = all(assignments).map((assignment) => assignment.accessProfile);
	return [
		...all(assignments)
			.filter((assignment) => !all(people).some((person) => oracle.matches(assignment, person)))
			.map(({ id }) => finding('assignment-matches-nobody', { assignment: id })),
		...all(doors)
			.filter(({ id }) => !groupedDoors.includes(id))
			.map(({ id }) => finding('door-in-no-group', { door: id })),
		...all(doorGroups)
			.filter((group) => all(group.doors).length === 0)
			.map(({ id }) => finding('group-empty', { doorGroup: id })),
		...all(schedules)
			.filter(({ id }) => !usedSchedules.includes(id))
			.map(({ id }) => finding('schedule-unused', { schedule: id })),
		...all(accessProfiles)
			.filter(({ id }) => !assignedProfiles.includes(id))
			.map(({ id }) => finding('profile-unassigned', { accessProfile: id })),
		...all(doors)
			.filter((door) => door.exit === 'reader')
			.map(({ id }) => finding('exit-needs-reader', { door: id }))
	];
}

function clockChanges(oracle: AccessOracle): PlainFinding[] {
	const { document, time } = oracle;
	const { from, until } = document.horizon;
	return assignedSchedules(document).flatMap((schedule) => {
		const dates = new Set<string>();
		// The first and the last date of the timeline are margin.
		for (const date of time.dates.slice(1, -1)) {
			const next = plusDays(date, 1);
			for (const { text } of oracle.stretchesOn(schedule, date)) {
				const [start = '', end = ''] = text.split('-');
				const ends: (readonly [string, string])[] = [[date, start]];
				if (end === '24:00') ends.push([next, '00:00']);
				else if (end > start) ends.push([date, end]);
				// One that the next date cuts ends at midnight, and not when it is written.
				else if (oracle.dayOf(schedule, next) === 'ordinary' || end === '00:00') ends.push([next, end]);
				for (const [on, clock] of ends) {
					if (isWithin(on, from, until) && time.fateOf(on, clock) !== 'once') dates.add(on);
				}
			}
		}
		return dates.size > 0 ? [finding('clock-change', { schedule: schedule.id }, dates)] : [];
	});
}

function capacities(oracle: AccessOracle): PlainFinding[] {
	const { document } = oracle;
	const holidayDates = new Set(
		all(document.holidays?.days)
			.map((day) => day.date)
			.filter((date) => isWithin(date, document.horizon.from, document.horizon.until))
	);
	return all(document.controllers).flatMap((controller) => {
		const doors = all(document.doors).filter((door) => door.controller === controller.id);
		const doorIds = doors.map((door) => door.id);
		const fingerDoors = doors.filter((door) => door.identify !== 'card');
		const templates = all(document.people).filter((person) =>
			fingerDoors.some((door) => oracle.mayEverOpen(person, door.id))
		);
		const schedules = new Set(
			all(document.assignments)
				.flatMap(({ accessProfile }) => all(byId(document.accessProfiles, accessProfile).entries))
				.filter(({ doorGroup }) =>
					all(byId(document.doorGroups, doorGroup).doors).some((door) => doorIds.includes(door))
				)
				.map((entry) => entry.schedule)
		);
		const readers = all(document.readers).filter(
			(reader) => (reader.controller ?? byId(document.doors, reader.door).controller) === controller.id
		);
		const modules = readers.flatMap(({ module }) => (isGiven(module) ? [module] : []));
		const isModuleFull = modules.some((module) => modules.filter((one) => one === module).length > 2);
		const milliamps = readers.reduce((sum, reader) => sum + (reader.milliamps ?? 0), 0);
		const over = (has: number, limit: number | null | undefined): boolean => isGiven(limit) && has > limit;
		return [
			...(over(doors.length, controller.maxDoors) ? ['doors'] : []),
			...(over(templates.length, controller.maxTemplates) ? ['templates'] : []),
			...(over(schedules.size, controller.maxSchedules) ? ['schedules'] : []),
			...(over(holidayDates.size, controller.maxHolidays) ? ['holidays'] : []),
			...(isModuleFull ? ['module'] : []),
			...(over(milliamps, controller.supplyMilliamps) ? ['supply'] : [])
		].map((of) => finding('over-capacity', { controller: controller.id, of }, [], null));
	});
}
