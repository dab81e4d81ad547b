import type { Rollout } from '$lib/core/document/schema';

/** What can be chosen or is suggested in the form of a person. */
export function personChoices(rollout: Rollout) {
	const option = ({ id, name }: { id: string; name: string | null }) => ({ value: id, label: name ?? id });
	const words = (pick: (person: Rollout['people'][number]) => readonly string[]) =>
		[...new Set(rollout.people.flatMap(pick))].sort();
	return {
		shiftPatterns: rollout.shiftPatterns.map(option),
		waves: rollout.enrollment.waves.map(option),
		captureClasses: rollout.enrollment.captureClasses.map(option),
		areas: rollout.areas.filter(({ outside }) => !outside).map(option),
		departments: words(({ department }) => (department === null ? [] : [department])),
		jobs: words(({ job }) => (job === null ? [] : [job])),
		languages: words(({ language }) => (language === null ? [] : [language])),
		needs: [
			...new Set([...words(({ needs }) => needs), ...rollout.enrollment.stations.flatMap(({ serves }) => serves)])
		]
	};
}

export type PersonChoices = ReturnType<typeof personChoices>;
