import { chosenIn, isTicked, linesIn, textIn } from '$lib/server/http/forms';

/** What the forms about profiles and assignments send; judged by the schema of the document. */

/** The entries of a profile: the fields `group.0`, `schedule.0` and so on; a row in which nothing is chosen is none. */
export function entriesIn(form: FormData): { doorGroup: string; schedule: string }[] {
	const entries: { doorGroup: string; schedule: string }[] = [];
	for (let place = 0; form.has(`group.${place}`); place++) {
		const [doorGroup, schedule] = [textIn(form, `group.${place}`), textIn(form, `schedule.${place}`)];
		if (doorGroup !== null || schedule !== null) entries.push({ doorGroup: doorGroup ?? '', schedule: schedule ?? '' });
	}
	return entries;
}

/** Whom an assignment names; only what was chosen is written. People are ticked, or typed by id, one per line. */
export function whoIn(form: FormData): Record<string, unknown> {
	const typed = linesIn(form, 'peopleLines');
	const lists = {
		people: [...new Set([...chosenIn(form, 'people'), ...typed])],
		departments: chosenIn(form, 'departments'),
		jobs: chosenIn(form, 'jobs'),
		waves: chosenIn(form, 'waves')
	};
	return {
		...(isTicked(form, 'everyone') ? { everyone: true } : {}),
		...Object.fromEntries(Object.entries(lists).filter(([, list]) => list.length > 0))
	};
}
