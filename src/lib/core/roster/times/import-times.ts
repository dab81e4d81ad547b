import { epochDayOf, dateOf, type LocalDate } from '../../calendar/local-date';
import { Zone } from '../../calendar/zone';
import type { Absence, Person, Rollout } from '../../document/schema';
import { fault } from '../../kernel/fault';
import { type Result, ok, refused } from '../../kernel/result';
import { openList, readRows } from '../import-roster';
import { readDates } from '../people/read-dates';
import { readNames } from '../people/read-names';
import { textAt } from '../people/row-draft';
import type { RosterColumn } from '../roster-answer';
import { readRosterMap } from '../roster-map';
import { knownValuesOf } from '../values/known-values';
import { saysNothing } from '../values/cell-text';
import { type Meant, PeopleFinder } from './find-people';
import { type WrittenShift, matchPattern } from './match-pattern';
import { type TimesProblem, timesProblem } from './problem';
import { type CalendarEvent, readCalendar } from './read-calendar';

/** An absence that would be added; an open end has no last day. */
export interface NewAbsence {
	readonly row: number;
	readonly person: string;
	readonly from: LocalDate;
	readonly until: LocalDate | null;
}

/** Somebody who would work by another pattern. */
export interface NewPattern {
	readonly row: number;
	readonly person: string;
	readonly before: string | null;
	readonly after: string;
}

/** What a list of absences and shifts, or a calendar, would change: a proposal, nothing of it applied. */
export interface TimesAnswer {
	readonly source: 'list' | 'calendar';
	/** What the columns of a list were taken for; of a calendar none. */
	readonly columns: readonly RosterColumn[];
	readonly absences: readonly NewAbsence[];
	readonly patterns: readonly NewPattern[];
	/** How many absences and patterns stand at the site already. */
	readonly known: number;
	readonly problems: readonly TimesProblem[];
}

/** What is gathered while a file is read. */
interface Gathered {
	readonly absences: NewAbsence[];
	/** The pattern of each person, by the first row that says one. */
	readonly patterns: Map<string, NewPattern>;
	readonly problems: TimesProblem[];
}

/**
 * Reads absences and assignments to shift patterns: an iCalendar file (whole days are absences, timed events are shifts, which are
 * held against the patterns of the site), or a list with a column for who (number, address or name) and columns for the first and
 * last day away, or for the shift pattern. Whoever is not known for sure is told and left out. Refuses what is neither.
 */
export function importTimes(bytes: Uint8Array, into: Rollout, map?: unknown): Result<TimesAnswer> {
	const gathered: Gathered = { absences: [], patterns: new Map(), problems: [] };
	const calendar = calendarText(bytes);
	const read = calendar === undefined ? ofList(bytes, into, map, gathered) : ofCalendar(calendar, into, gathered);
	if (!read.ok) return read;
	const present = new Set(into.absences.map(keyOf));
	const added = gathered.absences.filter((one, place, all) => {
		const key = keyOf(one);
		return !present.has(key) && all.findIndex((other) => keyOf(other) === key) === place;
	});
	const patterns = [...gathered.patterns.values()].filter(({ before, after }) => before !== after);
	return ok({
		source: calendar === undefined ? 'list' : 'calendar',
		columns: read.value,
		absences: added,
		patterns,
		known: gathered.absences.length - added.length + gathered.patterns.size - patterns.length,
		problems: gathered.problems.toSorted((a, b) => a.row - b.row)
	});
}

/** The text of a calendar; undefined for anything else. @source RFC 5545, section 3.1.4: UTF-8 */
function calendarText(bytes: Uint8Array): string | undefined {
	const start = new TextDecoder().decode(bytes.subarray(0, 200));
	return /^\s*BEGIN:VCALENDAR/i.test(start) ? new TextDecoder().decode(bytes) : undefined;
}

function keyOf({ person, from, until }: Pick<Absence, 'person' | 'from' | 'until'>): string {
	return JSON.stringify([person, from, until]);
}

function ofList(bytes: Uint8Array, into: Rollout, map: unknown, gathered: Gathered): Result<readonly RosterColumn[]> {
	const wanted = readRosterMap(map);
	if (!wanted.ok) return wanted;
	const known = knownValuesOf(into);
	const opened = openList(bytes, wanted.value, known);
	if (!opened.ok) return opened;
	const { table, origin, dateSystem, doubtfulIn } = opened.value;
	const { plan } = table;
	const patternColumn = plan.others.get('shiftPattern');
	const emailColumn = plan.others.get('email');
	if (!plan.dates.has('startsOn') && patternColumn === undefined) {
		const found = plan.headers.join(', ');
		return refused([
			fault([], found, 'a column with first days away, or one with shift patterns, beside who is meant')
		]);
	}
	const { drafts } = readRows(table, { encoding: origin.encoding, doubtfulIn });
	const placed = drafts.filter(({ isMisplaced }) => !isMisplaced);
	const dates = readDates(placed, plan, { orderGiven: wanted.value.dateOrder ?? undefined, dateSystem }, () => null);
	const names = readNames(placed, plan);
	const finder = new PeopleFinder(into.people);
	for (const [index, draft] of placed.entries()) {
		const { row } = draft;
		const at = (column: number | undefined) => ({
			row,
			column: column === undefined ? null : (plan.headers[column] ?? ''),
			value: textAt(draft, column) ?? ''
		});
		const [id, email] = [textAt(draft, plan.id) ?? '', textAt(draft, emailColumn) ?? ''];
		const name = names[index] ?? '';
		const meant = id !== '' ? finder.byId(id) : email !== '' ? finder.byEmail(email) : finder.byName(name);
		const whoColumn = id !== '' ? plan.id : email !== '' ? emailColumn : plan.names[0];
		if (id === '' && email === '' && name === '') gathered.problems.push(timesProblem('person-missing', at(plan.id)));
		else if (meant.person === undefined) gathered.problems.push(notMeant(meant, at(whoColumn)));
		else {
			const [from, until] = [dates.get('startsOn')?.[index] ?? null, dates.get('leavesOn')?.[index] ?? null];
			if (from !== 'unread' && until !== 'unread') {
				addAbsence(gathered, meant.person, row, from, until, plan.dates.size > 0 && patternColumn === undefined);
			}
			const pattern = textAt(draft, patternColumn) ?? '';
			if (pattern !== '' && !saysNothing(pattern)) {
				const found = known.shiftPattern.isAsked ? known.shiftPattern.find(pattern) : undefined;
				if (found !== undefined) addPattern(gathered, meant.person, row, found);
				else {
					const nearest = known.shiftPattern.nearest(pattern);
					gathered.problems.push(timesProblem('pattern-unknown', at(patternColumn), nearest));
				}
			}
		}
	}
	gathered.problems.push(
		...drafts.flatMap(({ problems }) =>
			problems.filter(({ code }) => code !== 'value-unknown' && code !== 'name-missing')
		)
	);
	return ok(table.columns);
}

function ofCalendar(text: string, into: Rollout, gathered: Gathered): Result<readonly RosterColumn[]> {
	const [from, until] = [epochDayOf(into.horizon.from), epochDayOf(into.horizon.until)];
	const zone = new Zone(into.site.timeZone, from, until);
	const calendar = readCalendar(text, { from, until, zone });
	if (!calendar.ok) return calendar;
	gathered.problems.push(...calendar.value.problems);
	const finder = new PeopleFinder(into.people);
	const owner = finder.inWords(calendar.value.name);
	const shiftsByPerson = new Map<Person, { readonly row: number; readonly shifts: WrittenShift[] }>();
	for (const event of calendar.value.events) {
		if (event.days.length + event.times.length === 0) continue;
		for (const meant of meantBy(event, finder, owner)) {
			const { row } = event;
			if (meant.person === undefined) {
				const isNobody = meant.count === 0 && event.summary === '';
				const place = { row, column: 'SUMMARY', value: event.summary };
				gathered.problems.push(isNobody ? timesProblem('person-missing', place) : notMeant(meant, place));
				continue;
			}
			for (const days of event.days)
				addAbsence(gathered, meant.person, row, dateOf(days.from), dateOf(days.until), true);
			const own = shiftsByPerson.get(meant.person) ?? { row, shifts: [] };
			own.shifts.push(...event.times);
			shiftsByPerson.set(meant.person, own);
		}
	}
	for (const [person, { row, shifts }] of shiftsByPerson) {
		if (shifts.length === 0) continue;
		const absences = [...into.absences, ...gathered.absences];
		const { patterns, nearest, differing } = matchPattern(shifts, person, into, absences, zone);
		const [only, ...others] = patterns;
		const place = { row, column: null, value: person.id };
		if (only !== undefined && others.length === 0) addPattern(gathered, person, row, only);
		else if (only !== undefined) gathered.problems.push(timesProblem('pattern-ambiguous', place, patterns));
		else gathered.problems.push(timesProblem('pattern-unmatched', place, nearest, differing));
	}
	return ok([]);
}

/** Who an event is about: those invited, else who its title names, else whose calendar it is. */
function meantBy(event: CalendarEvent, finder: PeopleFinder, owner: Meant): readonly Meant[] {
	if (event.attendees.length > 0) return event.attendees.map((one) => finder.byEmail(one));
	const named = finder.inWords(event.summary);
	return [named.person === undefined && named.count === 0 && owner.person ? owner : named];
}

function notMeant(meant: Meant, place: Pick<TimesProblem, 'row' | 'column' | 'value'>): TimesProblem {
	if (meant.person !== undefined) throw new Error('somebody is meant');
	return meant.count > 1
		? timesProblem('person-ambiguous', place, meant.count)
		: timesProblem('person-unknown', place, meant.nearest);
}

function addAbsence(
	{ absences, problems }: Gathered,
	person: Person,
	row: number,
	from: LocalDate | null,
	until: LocalDate | null,
	isExpected: boolean
): void {
	if (from === null) {
		if (isExpected || until !== null) {
			problems.push(timesProblem('date-missing', { row, column: null, value: until ?? '' }));
		}
	} else if (until !== null && until < from) {
		problems.push(timesProblem('until-before-from', { row, column: null, value: until }, from, until));
	} else absences.push({ row, person: person.id, from, until });
}

function addPattern({ patterns, problems }: Gathered, person: Person, row: number, after: string): void {
	const before = patterns.get(person.id);
	if (before === undefined) patterns.set(person.id, { row, person: person.id, before: person.shiftPattern, after });
	else if (before.after !== after) {
		problems.push(timesProblem('pattern-repeated', { row, column: null, value: after }));
	}
}

/** The change that takes a proposal over, as `all-of` takes it; null where there is nothing to do. */
export function takingTimesOver({ absences, patterns }: Pick<TimesAnswer, 'absences' | 'patterns'>) {
	if (absences.length + patterns.length === 0) return null;
	const people = patterns.map(({ person, after }) => ({ id: person, shiftPattern: after }));
	const was = patterns.map(({ person, before }) => ({ id: person, shiftPattern: before }));
	return {
		what: `Shifts and absences taken over: ${absences.length} absences, ${patterns.length} with another shift pattern`,
		edits: [
			...(people.length > 0 ? [{ edit: 'apply-roster', params: { people, was } }] : []),
			...absences.map(({ person, from, until }) => ({
				edit: 'put-entry',
				params: { collection: 'absences', entry: { person, from, ...(until === null ? {} : { until }) } }
			}))
		]
	};
}
