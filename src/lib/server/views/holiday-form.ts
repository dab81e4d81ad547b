import type { RolloutDocument } from '$lib/core/document/schema';

/** What the forms of the sheet of holidays send; judged by the schema of the document. */

/** The holiday of a form; what the entry held beyond the fields stays. An empty name is left out. */
export function holidayIn(form: FormData, before: object | undefined): Record<string, unknown> {
	const entry: Record<string, unknown> = { ...before, date: textOf(form, 'date'), kind: textOf(form, 'kind') };
	const name = textOf(form, 'name');
	if (name === '') delete entry['name'];
	else entry['name'] = name;
	return entry;
}

/** The ticked days of the official list: each date with its `name.` and `kind.` fields. */
export function holidaysIn(form: FormData): { date: string; name: string; kind: string }[] {
	return form
		.getAll('day')
		.filter((date): date is string => typeof date === 'string')
		.map((date) => ({ date, name: textOf(form, `name.${date}`), kind: textOf(form, `kind.${date}`) }));
}

/** Up to when a list is complete that was filled until a date: never earlier than it was. */
export function coveredUntilOf({ holidays }: RolloutDocument, until: string | null): string | null {
	const before = holidays?.coveredUntil ?? null;
	return before !== null && until !== null && before > until ? before : until;
}

function textOf(form: FormData, name: string): string {
	const value = form.get(name);
	return typeof value === 'string' ? value.trim() : '';
}
