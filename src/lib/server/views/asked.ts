import access from '$lib/core/answers/access';
import who from '$lib/core/answers/who';
import { momentWords } from '$lib/core/access/explain-sentence';
import { type ReadQuestion, readQuestion } from '$lib/core/access/question/read-question';
import { dateWords } from '$lib/core/calendar/date-words';
import { type LocalDate, dateOf, epochDayOf, plusDays } from '$lib/core/calendar/local-date';
import type { LocalDateTime } from '$lib/core/calendar/local-date-time';
import { nameOf } from '$lib/core/document/names';
import type { Person } from '$lib/core/document/schema';
import { type OpenRollout, ask } from '$lib/server/rollouts';
import { explainedView } from './explained';
import { findPerson, momentOf, reachAt } from './who-at';

/** People of a list that are shown at once. */
const mostPeople = 500;
/** Days for which it is told when somebody may open a door. */
const daysTold = 14;

/** What is asked, by the question in words or by the fields. */
interface Asked {
	readonly person: Person | null;
	readonly door: string | null;
	readonly area: string | null;
	readonly department: string | null;
	readonly moment: LocalDateTime;
	readonly kind: ReadQuestion['kind'];
}

/**
 * What the sheet "Who can open what" answers below its grid: about a door, an area, a person and a moment of the address, or
 * about the question in words that stands there (`q`).
 */
export async function askedView(open: OpenRollout, search: URLSearchParams, from: LocalDate, today: LocalDate) {
	const { rollout } = open;
	const text = search.get('q');
	const question = text === null ? null : readQuestion(rollout, text, today);
	const asked = question ? ofQuestion(open, question) : ofFields(open, search, from);
	const isAnswered = !question || question.isReady;
	const { person, door, area, moment } = asked;
	const isWhy = isAnswered && person !== null && door !== null;
	const explained = isWhy && asked.kind !== 'when' ? explainedView(rollout, person, door, moment) : null;
	return {
		question,
		kind: asked.kind,
		person: person && { id: person.id, name: person.name ?? person.id, workAreas: person.workAreas },
		unknown: !question && search.get('person') && !person ? search.get('person') : null,
		door: door === null ? null : { id: door, name: nameOf(rollout.doors, door) },
		area: area === null ? null : { id: area, name: nameOf(rollout.areas, area) },
		department: asked.department,
		moment,
		momentWords: momentWords(moment),
		explained,
		/** Doors of the way, for drawing it. */
		route: explained?.route.filter(({ opens }) => opens).map(({ id }) => id) ?? [],
		openers: isAnswered && person === null && (door !== null || area !== null) ? await openersOf(open, asked) : null,
		times: isWhy && asked.kind === 'when' ? await timesOf(open, person, door, moment.slice(0, 10) as LocalDate) : null,
		reach: isAnswered && person ? reachAt(rollout, person, moment, door) : null
	};
}

function ofQuestion({ rollout }: OpenRollout, question: ReadQuestion): Asked {
	const person = rollout.people.find(({ id }) => id === question.person) ?? null;
	const { door, area, department, at, kind } = question;
	return { person, door, area, department, moment: at, kind };
}

function ofFields({ rollout }: OpenRollout, search: URLSearchParams, from: LocalDate): Asked {
	const person = findPerson(rollout, search.get('person'));
	const idIn = (name: string, list: readonly { readonly id: string }[]) =>
		list.find(({ id }) => id === search.get(name))?.id ?? null;
	const door = idIn('door', rollout.doors);
	const area = door === null ? idIn('area', rollout.areas) : null;
	const asked = search.get('of');
	const department = rollout.people.some((one) => one.department === asked) ? asked : null;
	const moment = momentOf(rollout, search.get('at'), from, person, door);
	const kind = person === null ? 'who' : door === null ? 'what' : search.has('times') ? 'when' : 'why';
	return { person, door, area, department, moment, kind };
}

async function openersOf(open: OpenRollout, { door, area, department, moment }: Asked) {
	const { rollout } = open;
	const where = door === null ? { area } : { door };
	const answer = await ask(open, who, { ...where, at: moment, ...(department === null ? {} : { department }) });
	if (!answer.ok) return null;
	const { people, doors, count, stranded } = answer.value;
	const departments = new Map<string, number>();
	for (const one of people) departments.set(one.department ?? '', (departments.get(one.department ?? '') ?? 0) + 1);
	return {
		count,
		stranded,
		doors: doors.map((id) => nameOf(rollout.doors, id)),
		departments: [...departments].map(([name, of]) => ({ name, count: of })).sort((a, b) => compared(a.name, b.name)),
		people: people
			.map((one) => {
				const some = one.doors.length < doors.length ? one.doors.map((id) => nameOf(rollout.doors, id)) : [];
				return {
					id: one.person,
					name: nameOf(rollout.people, one.person),
					department: one.department,
					canReach: one.canReach,
					some
				};
			})
			.sort((a, b) => compared(a.department ?? '', b.department ?? '') || compared(a.name, b.name))
			.slice(0, mostPeople)
	};
}

/** When somebody may open a door, date by date. */
async function timesOf(open: OpenRollout, person: Person, door: string, from: LocalDate) {
	const until = dateOf(plusDays(epochDayOf(from), daysTold - 1));
	const answer = await ask(open, access, { person: person.id, door, from, until });
	if (!answer.ok) return null;
	return {
		words: `${dateWords(from)} to ${dateWords(until)}`,
		next: until === open.rollout.horizon.until ? null : `${dateOf(plusDays(epochDayOf(until), 1))}T00:00`,
		spans: answer.value.spans.map((span) => {
			return { at: span.from.slice(0, 16), from: momentWords(span.from), to: momentWords(span.to) };
		})
	};
}

function compared(a: string, b: string): number {
	return a < b ? -1 : a > b ? 1 : 0;
}
