import { dateWords } from '../calendar/date-words';
import { type EpochDay, type LocalDate, dateOf, plusDays } from '../calendar/local-date';
import { clockText } from '../calendar/stretch';
import type { Instant } from '../calendar/zone';
import { listed, nameOf } from '../document/names';
import type { Assignment, Person, Rollout } from '../document/schema';
import { type Break, type Chain, openAssignments, openingsAt, ruleAt, sideOf, undone, withNormal } from './chains';
import type { AccessModel } from './model';
import { type ReadySchedule, dayRuleOf, openingsOn } from './schedule-days';

/** The sentences that say what keeps a door closed, each naming the concrete thing. One place for each reason. */

/** Why a broken way does not open the door; every break after the first is told as it stands with the first undone. */
export function detailOf(model: AccessModel, chain: Chain, doorId: string, moment: Instant): string {
	let schedule = model.schedules.get(chain.schedule ?? '');
	const told = chain.broken.map((one) => {
		const words = breakWords(model, one, chain, schedule, doorId, moment);
		schedule = schedule && undone(model, one, schedule, moment);
		return words;
	});
	const [first = '', ...more] = told;
	return more.length === 0 ? first : `${first} And then: ${more.join(' ')}`;
}

function breakWords(
	model: AccessModel,
	one: Break,
	chain: Chain,
	schedule: ReadySchedule | undefined,
	doorId: string,
	moment: Instant
): string {
	const { rollout, zone } = model;
	const name = `Schedule ${nameOf(rollout.schedules, chain.schedule)}`;
	const today = zone.dayAt(moment);
	switch (one) {
		case 'assignment-not-in-force': {
			const assignment = rollout.assignments.find(({ id }) => id === chain.assignment);
			return `In force ${limitWords(assignment?.from ?? null, assignment?.until ?? null, today)}`;
		}
		case 'door-not-granted':
			return notGranted(rollout, chain, doorId);
		case 'schedule-not-valid': {
			const written = rollout.schedules.find(({ id }) => id === chain.schedule);
			return `${name} is valid ${limitWords(written?.from ?? null, written?.until ?? null, today)}`;
		}
		case 'holiday-undecided':
			return `${name} says nothing of ${kindOn(model, today)} holidays, so that it is closed on ${holidayWords(model, today)}.`;
		case 'holiday-closed': {
			const kind = kindOn(model, today);
			const list = schedule ? ruleAt(model, schedule, moment).stretches.map(({ text }) => text) : [];
			const does =
				list.length === 0
					? `is closed on ${kind} holidays, such as`
					: `has only ${listed(list, 6)} on ${kind} holidays, such as`;
			return `${name} ${does} ${holidayWords(model, today)}.`;
		}
		case 'schedule-closed':
			return `${name} is closed at ${clockText(zone.wallTimeAt(moment).minute)}; ${hoursWords(model, schedule, moment)}.`;
	}
}

/** `until Fri 1 January 2027; Mon 4 January 2027 lies after it.` */
export function limitWords(from: LocalDate | null, until: LocalDate | null, day: EpochDay): string {
	const limits = [
		...(from === null ? [] : [`from ${dateWords(from)}`]),
		...(until === null ? [] : [`until ${dateWords(until)}`])
	].join(' ');
	return `${limits}; ${dateWords(dateOf(day))} lies ${sideOf(from, day)} that.`;
}

function kindOn(model: AccessModel, day: EpochDay): string {
	return model.holidays.get(day)?.kind ?? '';
}

function holidayWords(model: AccessModel, day: EpochDay): string {
	const name = model.holidays.get(day)?.name ?? null;
	return `${name === null ? '' : `${name}, `}${dateWords(dateOf(day))}`;
}

/** What a schedule has on the date of a moment, what the night before leaves of it, and a night that a holiday took. */
function hoursWords(model: AccessModel, schedule: ReadySchedule | undefined, moment: Instant): string {
	if (!schedule) return 'it has no stretch';
	const today = model.zone.dayAt(moment);
	const yesterday = plusDays(today, -1);
	const own = dayRuleOf(schedule, today, model.holidays).stretches.map(({ text }) => text);
	const midnight = model.zone.midnightOf(today);
	const carried = openingsOn(schedule, yesterday, model.holidays, model.zone)
		.filter(({ to }) => to > midnight)
		.map(({ stretch }) => stretch.text);
	const night = carried.length === 0 ? '' : `, and the rest of ${listed(carried)} of ${dateWords(dateOf(yesterday))}`;
	const holiday = model.holidays.get(yesterday);
	const took =
		holiday && openingsAt(model, withNormal(schedule, holiday.kind), moment).length > 0
			? `; the night before, ${holidayWords(model, yesterday)}, is a ${holiday.kind} holiday, on which its night does not begin`
			: '';
	return `on ${dateWords(dateOf(today))} it has ${own.length === 0 ? 'no stretch' : listed(own, 6)}${night}${took}`;
}

function notGranted(rollout: Rollout, chain: Chain, doorId: string): string {
	const door = nameOf(rollout.doors, doorId);
	const profile = rollout.accessProfiles.find(({ id }) => id === chain.accessProfile);
	const own = [...new Set(profile?.entries.map(({ doorGroup }) => nameOf(rollout.doorGroups, doorGroup)))];
	const groups = rollout.doorGroups.filter(({ doors }) => doors.includes(doorId));
	const holds = own.length === 0 ? 'has no door group' : `has ${listed(own)}, without ${door}`;
	return `Profile ${nameOf(rollout.accessProfiles, chain.accessProfile)} ${holds}; ${elsewhere(rollout, groups, door)}.`;
}

/** Which group holds the door, the smallest first since it gives the least beside it, and which profiles give that. */
function elsewhere(rollout: Rollout, groups: Rollout['doorGroups'], door: string): string {
	const group = [...groups].sort((a, b) => a.doors.length - b.doors.length)[0];
	if (!group) return `no door group holds ${door}`;
	const givers = rollout.accessProfiles
		.filter(({ entries }) => entries.some(({ doorGroup }) => doorGroup === group.id))
		.map(({ id, name }) => name ?? id);
	const name = `door group ${group.name ?? group.id}`;
	return givers.length === 0
		? `${name} holds it, and no profile gives that`
		: `${name} holds it, given by ${listed(givers)}`;
}

/** Why somebody who is not employed then may open nothing. */
export function notEmployedWords(person: Pick<Person, 'startsOn' | 'leavesOn'>, day: EpochDay): string {
	return `Employed ${limitWords(person.startsOn, person.leavesOn, day)}`;
}

/** Why somebody whom no assignment matches may open nothing, and which assignment would open the door then. */
export function notMatchedWords(model: AccessModel, person: Person, doorId: string, moment: Instant): string {
	const known = [
		'the person',
		...(person.department === null ? [] : [`department ${person.department}`]),
		...(person.job === null ? [] : [`job ${person.job}`]),
		...(person.wave === null ? [] : [`wave ${nameOf(model.rollout.enrollment.waves, person.wave)}`])
	];
	const said = known.length === 1 ? 'this person, of whom no department, job or wave is known' : known.join(', ');
	const near = openAssignments(model, doorId, moment)[0];
	const hint = near ? ` Assignment ${near.id}, for ${whoWords(near, model.rollout)}, would open it then.` : '';
	return `No assignment names ${said}.${hint}`;
}

/** Whom an assignment matches: `departments Dock and Picking`. */
export function whoWords({ who }: Assignment, rollout: Rollout): string {
	if (who.everyone) return 'everybody';
	const part = (one: string, names: readonly string[]) =>
		names.length === 0
			? []
			: [`${names.length === 1 ? one : one === 'person' ? 'people' : `${one}s`} ${listed(names)}`];
	const parts = [
		...part(
			'person',
			who.people.map((id) => nameOf(rollout.people, id))
		),
		...part('department', who.departments),
		...part('job', who.jobs),
		...part(
			'wave',
			who.waves.map((id) => nameOf(rollout.enrollment.waves, id))
		)
	];
	return parts.length === 0 ? 'nobody' : parts.join(', ');
}

/** Why a door that opens is of no use: which doors on the nearest way to it do not open. */
export function noRouteWords(rollout: Rollout, doorId: string, missing: readonly string[] | null): string {
	const door = rollout.doors.find(({ id }) => id === doorId);
	const area = nameOf(rollout.areas, door?.from);
	const why =
		missing === null
			? 'no chain of doors leads there from outside'
			: `on the way, ${listed(missing.map((id) => nameOf(rollout.doors, id)))} ${missing.length === 1 ? 'does' : 'do'} not open for them then`;
	return `The door opens, but ${area}, from which it leads, cannot be reached at this time: ${why}.`;
}
