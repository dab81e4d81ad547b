import { matchingAssignments } from '$lib/core/access/matching';
import { nameOf } from '$lib/core/document/names';
import type { Rollout, Schedule, Treatment } from '$lib/core/document/schema';
import type { Finding } from '$lib/core/kernel/finding';
import { kindsOf } from '$lib/charts/year-strip';

/** A profile that uses a schedule, for which door groups, and how many people get it by an assignment. */
export interface ScheduleUser {
	readonly profile: string;
	readonly name: string;
	readonly doorGroups: readonly string[];
	readonly people: number;
}

/** A schedule as the list shows it. */
export interface ScheduleRow {
	readonly id: string;
	readonly name: string;
	readonly from: string | null;
	readonly until: string | null;
	readonly week: Schedule['week'];
	readonly users: readonly ScheduleUser[];
	/** People who get it by any assignment, whatever its dates; each counted once. */
	readonly people: number;
	readonly errors: number;
	readonly findings: number;
}

/** Every schedule with who uses it and what was found about it. */
export function scheduleRows(rollout: Rollout, findings: readonly Finding[]): ScheduleRow[] {
	const peopleByProfile = peopleOfProfiles(rollout);
	return rollout.schedules.map((schedule) => {
		const users = usersOf(rollout, schedule.id, peopleByProfile);
		const found = findings.filter(({ subject }) => subject['schedule'] === schedule.id);
		return {
			id: schedule.id,
			name: schedule.name ?? schedule.id,
			from: schedule.from,
			until: schedule.until,
			week: schedule.week,
			users,
			people: new Set(users.flatMap(({ profile }) => [...(peopleByProfile.get(profile) ?? [])])).size,
			errors: found.filter(({ severity }) => severity === 'error').length,
			findings: found.length
		};
	});
}

/** Ids of the people whom some assignment gives a profile, by the profile's id. */
export function peopleOfProfiles(rollout: Rollout): ReadonlyMap<string, ReadonlySet<string>> {
	const matching = matchingAssignments(rollout);
	const peopleByProfile = new Map<string, Set<string>>();
	for (const person of rollout.people) {
		for (const place of matching(person)) {
			const profile = rollout.assignments[place]?.accessProfile;
			if (profile === undefined) continue;
			const people = peopleByProfile.get(profile) ?? new Set();
			peopleByProfile.set(profile, people.add(person.id));
		}
	}
	return peopleByProfile;
}

function usersOf(
	rollout: Rollout,
	schedule: string,
	peopleByProfile: ReadonlyMap<string, ReadonlySet<string>>
): ScheduleUser[] {
	return rollout.accessProfiles.flatMap(({ id, name, entries }) => {
		const groups = entries.filter((entry) => entry.schedule === schedule).map(({ doorGroup }) => doorGroup);
		if (groups.length === 0) return [];
		const doorGroups = [...new Set(groups)].map((group) => nameOf(rollout.doorGroups, group));
		return [{ profile: id, name: name ?? id, doorGroups, people: peopleByProfile.get(id)?.size ?? 0 }];
	});
}

/** A kind of holiday beside what a schedule does on it, and the dates of the horizon that are of it. */
export interface KindTreated {
	readonly kind: string;
	/** Null where the schedule says nothing. */
	readonly treatment: Treatment | null;
	readonly dates: readonly string[];
}

/** What a schedule does on every kind that the list of holidays or any schedule names. */
export function kindsTreated(rollout: Rollout, schedule: Schedule): KindTreated[] {
	const { from, until } = rollout.horizon;
	return kindsOfRollout(rollout).map((kind) => ({
		kind,
		treatment: treatmentOf(schedule, kind),
		dates: rollout.holidays.days
			.filter((day) => day.kind === kind && day.date >= from && day.date <= until)
			.map(({ date }) => date)
	}));
}

/** What a schedule does on a kind of holiday; null where it says nothing. */
export function treatmentOf(schedule: Schedule, kind: string): Treatment | null {
	return Object.hasOwn(schedule.holidays, kind) ? (schedule.holidays[kind] ?? null) : null;
}

/** The kinds of holiday that the list of holidays, then the schedules, name. */
export function kindsOfRollout({ holidays, schedules }: Rollout): string[] {
	const listed = holidays.days.map(({ date, name, kind }) => ({ date, name: name ?? kind, kind }));
	return kindsOf(
		listed,
		schedules.map((schedule) => Object.keys(schedule.holidays))
	);
}
