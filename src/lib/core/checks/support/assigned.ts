import type { Rollout, Schedule } from '../../document/schema';

/** Schedules in an entry of a profile that some assignment names, in force or not; in the order of the document. */
export function assignedSchedules(rollout: Rollout): Schedule[] {
	const profiles = new Set(rollout.assignments.map((assignment) => assignment.accessProfile));
	const ids = new Set(
		rollout.accessProfiles
			.filter((profile) => profiles.has(profile.id))
			.flatMap((profile) => profile.entries.map((entry) => entry.schedule))
	);
	return rollout.schedules.filter((schedule) => ids.has(schedule.id));
}
