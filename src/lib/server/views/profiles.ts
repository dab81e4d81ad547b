import { matchingAssignments } from '$lib/core/access/matching';
import { nameOf } from '$lib/core/document/names';
import type { Person, Rollout, Schedule, Who } from '$lib/core/document/schema';
import { peopleOfProfiles } from './schedules';

/** An entry of a profile as it is shown. */
export interface EntryView {
	readonly doorGroup: string;
	readonly groupName: string;
	readonly doors: readonly string[];
	readonly schedule: string;
	readonly scheduleName: string;
	readonly week: Schedule['week'];
}

export interface ProfileView {
	readonly id: string;
	readonly name: string;
	readonly entries: readonly EntryView[];
	/** Ids of the assignments that give it. */
	readonly assignments: readonly string[];
	/** People whom some assignment gives it, whatever its dates; each once. */
	readonly people: number;
}

/** Every access profile with what it opens and who gets it. */
export function profileViews(rollout: Rollout): ProfileView[] {
	const peopleByProfile = peopleOfProfiles(rollout);
	const groupById = new Map(rollout.doorGroups.map((group) => [group.id, group]));
	const scheduleById = new Map(rollout.schedules.map((schedule) => [schedule.id, schedule]));
	return rollout.accessProfiles.map(({ id, name, entries }) => ({
		id,
		name: name ?? id,
		entries: entries.flatMap(({ doorGroup, schedule }) => {
			const [group, when] = [groupById.get(doorGroup), scheduleById.get(schedule)];
			if (!group || !when) return [];
			return {
				doorGroup,
				groupName: group.name ?? group.id,
				doors: group.doors.map((door) => nameOf(rollout.doors, door)),
				schedule,
				scheduleName: when.name ?? when.id,
				week: when.week
			};
		}),
		assignments: rollout.assignments.filter(({ accessProfile }) => accessProfile === id).map((one) => one.id),
		people: peopleByProfile.get(id)?.size ?? 0
	}));
}

export interface AssignmentView {
	readonly id: string;
	readonly who: Who;
	/** `department Packing or job Guard`, in words. */
	readonly whoWords: string;
	readonly profile: string;
	readonly profileName: string;
	readonly from: string | null;
	readonly until: string | null;
	readonly approvedBy: string | null;
	/** People that it matches, whatever its dates. */
	readonly people: number;
	/** A few of them, by name. */
	readonly some: readonly string[];
	/** Words of `who` that no person bears: a slip of the pen, or somebody still to come. */
	readonly unmatched: readonly string[];
}

/** Every assignment with whom it matches. */
export function assignmentViews(rollout: Rollout): AssignmentView[] {
	const matching = matchingAssignments(rollout);
	const matched: Person[][] = rollout.assignments.map(() => []);
	for (const person of rollout.people) for (const place of matching(person)) matched[place]?.push(person);
	return rollout.assignments.map((assignment, place) => {
		const people = matched[place] ?? [];
		return {
			id: assignment.id,
			who: assignment.who,
			whoWords: whoWords(assignment.who, rollout),
			profile: assignment.accessProfile,
			profileName: nameOf(rollout.accessProfiles, assignment.accessProfile),
			from: assignment.from,
			until: assignment.until,
			approvedBy: assignment.approvedBy,
			people: people.length,
			some: people.slice(0, 6).map(({ id, name }) => name ?? id),
			unmatched: unmatchedWords(assignment.who, people)
		};
	});
}

/** Whom an assignment names, in words; with `everyone`, the rest does not matter. */
export function whoWords(who: Who, rollout: Pick<Rollout, 'people' | 'enrollment'>): string {
	if (who.everyone) return 'everyone';
	const named = who.people.map((id) => nameOf(rollout.people, id));
	const waves = who.waves.map((id) => nameOf(rollout.enrollment.waves, id));
	const parts = [
		worded('department', 'departments', who.departments),
		worded('job', 'jobs', who.jobs),
		worded('wave', 'waves', waves),
		named.length > 4 ? `${named.length} people by name` : worded('', '', named)
	].filter((part) => part !== '');
	return parts.length === 0 ? 'nobody' : parts.join(', or ');
}

function worded(one: string, many: string, words: readonly string[]): string {
	if (words.length === 0) return '';
	return `${words.length === 1 ? one : many} ${words.join(', ')}`.trim();
}

function unmatchedWords(who: Who, matched: readonly Person[]): string[] {
	if (who.everyone) return [];
	const [departments, jobs] = [new Set(matched.map((one) => one.department)), new Set(matched.map((one) => one.job))];
	return [
		...who.departments.filter((name) => !departments.has(name)).map((name) => `department ${name}`),
		...who.jobs.filter((name) => !jobs.has(name)).map((name) => `job ${name}`)
	];
}

/** Something that can be ticked, with how many people bear it. */
export interface Choice {
	readonly value: string;
	readonly label: string;
	readonly note: string;
}

/** What an assignment can name: words that people bear, and those that some assignment names already. */
export function whoChoices(rollout: Rollout): Record<'departments' | 'jobs' | 'waves' | 'people', Choice[]> {
	const named = (key: 'departments' | 'jobs') => rollout.assignments.flatMap(({ who }) => who[key]);
	const counted = (words: readonly (string | null)[], also: readonly string[]): Choice[] => {
		const counts = new Map<string, number>();
		for (const word of words) if (word !== null) counts.set(word, (counts.get(word) ?? 0) + 1);
		return [...new Set([...counts.keys(), ...also])]
			.sort()
			.map((word) => ({ value: word, label: word, note: String(counts.get(word) ?? 0) }));
	};
	const { people, enrollment } = rollout;
	return {
		departments: counted(
			people.map(({ department }) => department),
			named('departments')
		),
		jobs: counted(
			people.map(({ job }) => job),
			named('jobs')
		),
		waves: enrollment.waves.map(({ id, name }) => ({
			value: id,
			label: name ?? id,
			note: String(people.filter(({ wave }) => wave === id).length)
		})),
		people: people.map(({ id, name, department }) => ({
			value: id,
			label: name ?? id,
			note: department === null ? id : `${id}, ${department}`
		}))
	};
}
