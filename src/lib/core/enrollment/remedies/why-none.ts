import { type EpochDay, dateOf } from '../../calendar/local-date';
import { personName } from '../../document/names';
import type { EnrollmentModel } from '../model';
import type { Shortfall } from '../shortfalls';
import { datesOnTime } from './presence';

/** Why no remedy is told for a shortfall, in one sentence. */
export function whyNone(
	model: EnrollmentModel,
	{ kind, people }: Shortfall,
	broken: ReadonlySet<string>,
	isOver: boolean
): string {
	const person = model.peopleById.get(people[0] ?? '');
	const told = kind === 'no-common-time' && person ? alone(model, person) : undefined;
	if (told) return told;
	if (isOver) return 'No remedy was looked for to the end, since the time was over: plan with more seconds.';
	const stuck = people.filter((id) => broken.has(id));
	if (stuck.length > 0) {
		return `A fixed booking that breaks a rule holds ${stuck.map((id) => personName(model.rollout, id)).join(', ')}: mend it or let it go first.`;
	}
	return 'No longer stretch, further lane, higher away-limit, later due date or served need that was tried books them for sure, alone or together.';
}

type Person = NonNullable<ReturnType<EnrollmentModel['peopleById']['get']>>;

/** What keeps one person from every station, however long stations are open; undefined where nothing does. */
function alone(model: EnrollmentModel, person: Person): string | undefined {
	const { rollout } = model;
	const name = personName(rollout, person.id);
	if (rollout.enrollment.stations.length === 0) return 'No remedy: there is no station yet.';
	const minutes = model.minutesOf(person);
	if (minutes === undefined) return `No remedy: there is no capture class yet, so nobody knows how long ${name} takes.`;
	const { from, until } = datesOnTime(model, person);
	const days = model.employedDaysOf(person);
	const by = `by ${dateOf(until)}, the last day on which they may be enrolled`;
	if (days.until < from)
		return `No remedy: ${name} leaves on ${dateOf(days.until as EpochDay)}, before ${dateOf(from)}, when the rollout begins.`;
	if (days.from > until) {
		const way = person.wave === null ? 'Put them into a wave with a later date' : 'Move them to a later wave';
		return `No remedy: ${name} starts on ${dateOf(days.from as EpochDay)} and is not there ${by}. ${way}.`;
	}
	const spans = model.freeSpansOf(person, from, until);
	const closes = model.endOf(dateOf(until));
	const free = spans.filter((span) => span.from < closes && span.to > model.zone.midnightOf(from));
	if (free.length === 0) {
		const why = days.absences.length > 0 ? 'absent or without a shift on every date' : 'without a shift on any date';
		return `No remedy: ${name} is ${why} ${by}. Mend the absence, the shift pattern or the wave.`;
	}
	const walks = rollout.enrollment.stations.map(({ area }) => model.walkOf(person, area));
	const walk = walks.reduce((least, one) => Math.min(least, one), Infinity);
	const longest = free.reduce((most, span) => Math.max(most, Math.min(span.to, closes) - span.from), 0);
	const needed = minutes * 60 + 2 * walk;
	if (longest < needed) {
		return `No remedy: the visit and the ways take ${name} ${Math.ceil(needed / 60)} minutes, and no shift ${by} leaves more than ${Math.floor(longest / 60)}. A station nearer by would help.`;
	}
	return undefined;
}
