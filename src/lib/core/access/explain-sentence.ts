import { dateWords, weekdayNames } from '../calendar/date-words';
import { type LocalDate, dateOf, epochDayOf, plusDays, weekdayOf } from '../calendar/local-date';
import { type LocalDateTime, wallTimeOf } from '../calendar/local-date-time';
import { Zone } from '../calendar/zone';
import { counted, nameOf, personName } from '../document/names';
import type { Rollout } from '../document/schema';
import type { Because, Explanation } from './explain';

/** What was asked: may this person open this door at this local moment. */
export interface MomentAsked {
	readonly person: string;
	readonly door: string;
	readonly at: LocalDateTime;
}

/**
 * An explanation in one plain sentence that names every link from the person to the stretch, or the nearest reason why not.
 * @example "Ada Quill (1001) may open Cold room 2 on Mon 4 January 2027 at 02:30, because assignment a-night gives profile Cold
 * store staff, whose entry for door group Cold rooms is on schedule Nights, open 22:00-06:00 since Sun 3 January 2027."
 */
export function explanationSentence(rollout: Rollout, asked: MomentAsked, explanation: Explanation): string {
	const { allowed, because, blockedBy } = explanation;
	const what = `${personName(rollout, asked.person)} ${allowed ? 'may' : 'may not'} open ${nameOf(rollout.doors, asked.door)} on ${momentWords(asked.at)}`;
	const [way, ...others] = because;
	const [block] = blockedBy;
	if (way) {
		const more =
			others.length === 0
				? ''
				: `; ${counted(others.length, 'other way')} ${others.length === 1 ? 'holds' : 'hold'} too`;
		const route = block ? `, yet cannot get to it: ${uncapitalized(block.detail)}` : '.';
		return `${what}, because ${wayWords(rollout, way, asked.at)}${more}${route}`;
	}
	if (!block) return `${what}.`;
	const through = block.assignment === undefined ? '' : `assignment ${block.assignment} does not open it: `;
	return `${what}, because ${through}${through ? block.detail : uncapitalized(block.detail)}`;
}

/**
 * What must be known beside the sentence: a time that the clock skips or shows twice, a date that no check covers, holidays
 * not known yet. Empty where there is nothing.
 */
export function explanationNotes(rollout: Rollout, at: LocalDateTime): readonly string[] {
	const wall = wallTimeOf(at);
	const date = dateOf(wall.day);
	const zone = new Zone(rollout.site.timeZone, plusDays(wall.day, -2), plusDays(wall.day, 2));
	const clock = at.slice(11);
	const { horizon, holidays } = rollout;
	const notes: string[] = [];
	const fate = zone.fateOf(wall);
	const read = zone.textOf(zone.instantOf(wall));
	if (!zone.hasDate(wall.day)) notes.push(`The clocks at the site leave out ${dateWords(date)}: read as ${read}.`);
	else if (fate === 'skipped') {
		notes.push(`The clock change skips ${clock} on this date: read with the offset before the change, as ${read}.`);
	} else if (fate === 'repeated') {
		notes.push(`The clock shows ${clock} twice on this date: the first of the two is meant, ${read}.`);
	}
	if (date < horizon.from || date > horizon.until) {
		notes.push(
			`${dateWords(date)} lies outside of the horizon, ${dateWords(horizon.from)} to ${dateWords(horizon.until)}, which the checks cover.`
		);
	}
	if (holidays.coveredUntil !== null && date > holidays.coveredUntil) {
		notes.push(
			`The holiday list is complete until ${dateWords(holidays.coveredUntil)} only: this date counts as ordinary unless listed.`
		);
	}
	return notes;
}

/** `Mon 4 January 2027 at 02:30` */
export function momentWords(at: string): string {
	return `${dateWords(at.slice(0, 10) as LocalDate)} at ${at.slice(11, 16)}`;
}

/** The way in which a door opens, from the assignment to the stretch. */
function wayWords(rollout: Rollout, way: Because, at: LocalDateTime): string {
	const profile = nameOf(rollout.accessProfiles, way.accessProfile);
	const group = nameOf(rollout.doorGroups, way.doorGroup);
	const schedule = nameOf(rollout.schedules, way.schedule);
	return `assignment ${way.assignment} gives profile ${profile}, whose entry for door group ${group} is on schedule ${schedule}, open ${way.stretch} ${sinceWords(way.date, at)}${holidayWords(rollout, way.date)}`;
}

/** That other times count on a date than on its weekday; empty for an ordinary date. */
function holidayWords(rollout: Rollout, date: LocalDate): string {
	const holiday = rollout.holidays.days.find((one) => one.date === date);
	return holiday ? ` (in the holiday list as ${holiday.kind})` : '';
}

/** When a stretch began: on the date itself, or on one before. */
export function sinceWords(date: LocalDate, at: LocalDateTime): string {
	return date === at.slice(0, 10) ? `on this ${weekdayNames[weekdayOf(epochDayOf(date))]}` : `since ${dateWords(date)}`;
}

/** The route in words; null where there is none. */
export function routeWords(rollout: Rollout, { route }: Explanation): string | null {
	if (route === null) return null;
	return `Way from outside: ${route.map((id) => nameOf(rollout.doors, id)).join(', then ')}.`;
}

function uncapitalized(text: string): string {
	return text.replace(/^(The|No|Employed) /, (word) => word.toLowerCase());
}
