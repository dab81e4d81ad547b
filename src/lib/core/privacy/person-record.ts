import type { LocalDate } from '../calendar/local-date';
import { entryOf } from '../document/names';
import type { Assignment, Person, Rollout } from '../document/schema';
import { outsideTexts } from './others-left-out';
import { retentionOn } from './retention';
import { requestsOn } from './requests';

/** Everything that a rollout holds about one person, as it is written, with what other entries say where they are named. */
export interface PersonRecord {
	readonly on: LocalDate;
	readonly site: { readonly name: string; readonly office: Rollout['privacy']['office'] };
	readonly person: Person;
	/** What the names in the entries stand for. */
	readonly named: Readonly<Record<string, unknown>>;
	readonly absences: readonly unknown[];
	/** Assignments that give the person access, and by which of their terms. */
	readonly access: readonly unknown[];
	readonly bookings: readonly unknown[];
	readonly visits: readonly unknown[];
	readonly consents: readonly unknown[];
	readonly templates: readonly unknown[];
	readonly erasureOrders: readonly unknown[];
	readonly holds: readonly unknown[];
	readonly requests: readonly unknown[];
	/** What was left out, since it is about somebody else. */
	readonly leftOut: readonly string[];
}

/** What stands where somebody else was named. */
export const somebodyElse = '[somebody else]';

/**
 * Everything held on one person on a day, and nothing of anyone else: names, staff numbers and addresses of other people are
 * taken out of free words, and fields that tell who acted are left out. Undefined where there is no such person.
 */
export function personRecord(rollout: Rollout, id: string, on: LocalDate): PersonRecord | undefined {
	const person = entryOf(rollout.people, id);
	if (!person) return undefined;
	const { enrollment, privacy } = rollout;
	const own = <T extends { readonly person: string }>(entries: readonly T[]) =>
		entries.filter((one) => one.person === id);
	const clean = outsideTexts(rollout, person, somebodyElse);
	const kept = retentionOn(rollout, on).templates.filter((one) => one.person === id);
	const standings = requestsOn(rollout, on).filter(({ request }) => request.person === id);
	const record = {
		on,
		site: { name: rollout.site.name, office: privacy.office },
		person,
		named: namesOf(rollout, person),
		absences: own(rollout.absences),
		access: rollout.assignments.flatMap((one) => accessBy(rollout, person, one)),
		bookings: own(enrollment.bookings),
		visits: own(enrollment.visits),
		consents: own(privacy.consents).map((one) => ({
			...one,
			notice: entryOf(privacy.notices, one.notice) ?? one.notice
		})),
		templates: own(privacy.templates).map((one, place) => {
			const { state, eraseBy, rule, left, candidates } = kept[place] ?? {};
			return { ...one, reckoned: { state, eraseBy, rule, left, source: candidates?.[0]?.source ?? null } };
		}),
		erasureOrders: own(privacy.erasureOrders),
		holds: own(privacy.holds),
		requests: standings.map(({ request, state, dueOn, why }) => ({ ...request, reckoned: { state, dueOn, why } }))
	};
	return { ...(clean(record) as Omit<PersonRecord, 'leftOut'>), leftOut };
}

const leftOut: readonly string[] = [
	'Who entered, approved, witnessed, checked, erased or confirmed something: that is about those people.',
	'Names, staff numbers and e-mail addresses of other people in free words.',
	'Other people who are named in the same assignments.'
];

function namesOf(rollout: Rollout, person: Person): Record<string, unknown> {
	const { waves, captureClasses } = rollout.enrollment;
	const named = {
		shiftPattern: person.shiftPattern === null ? null : entryOf(rollout.shiftPatterns, person.shiftPattern),
		workAreas: person.workAreas.map((area) => ({ id: area, name: entryOf(rollout.areas, area)?.name ?? area })),
		wave: person.wave === null ? null : entryOf(waves, person.wave),
		captureClass:
			person.captureClass === null ? (captureClasses[0] ?? null) : entryOf(captureClasses, person.captureClass)
	};
	return named;
}

function accessBy(rollout: Rollout, person: Person, assignment: Assignment): unknown[] {
	const { who, id, accessProfile, from, until } = assignment;
	const because = [
		...(who.everyone ? ['everyone'] : []),
		...(who.people.includes(person.id) ? ['named'] : []),
		...(person.department !== null && who.departments.includes(person.department) ? ['department'] : []),
		...(person.job !== null && who.jobs.includes(person.job) ? ['job'] : []),
		...(person.wave !== null && who.waves.includes(person.wave) ? ['wave'] : [])
	];
	if (because.length === 0) return [];
	const profile = entryOf(rollout.accessProfiles, accessProfile);
	const entries = (profile?.entries ?? []).map(({ doorGroup, schedule }) => ({
		doors: (entryOf(rollout.doorGroups, doorGroup)?.doors ?? []).map(
			(door) => entryOf(rollout.doors, door)?.name ?? door
		),
		schedule: entryOf(rollout.schedules, schedule)?.name ?? schedule
	}));
	return [
		{ assignment: id, because, accessProfile: { id: accessProfile, name: profile?.name ?? null, entries }, from, until }
	];
}
