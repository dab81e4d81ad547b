import { readDay } from '$lib/charts/week';
import { weekdays } from '$lib/core/calendar/local-date';

/** What the forms about schedules send. Text that is no stretch is passed on, for the schema to refuse with its place. */

/** The week of a week sheet: only days that are open, as a document is written. */
export function weekIn(form: FormData): Record<string, string[]> {
	const days = weekdays.map((day) => [day, stretchesIn(form, `week.${day}`)] as const);
	return Object.fromEntries(days.filter(([, stretches]) => stretches.length > 0));
}

/**
 * What a schedule does on each kind of holiday: the fields `kind.0`, `treatment.0`, `stretches.0` and so on. A kind that is
 * left undecided, or has no name, is left out.
 */
export function treatmentsIn(form: FormData): Record<string, 'normal' | 'closed' | string[]> {
	const treated: [string, 'normal' | 'closed' | string[]][] = [];
	for (let place = 0; form.has(`kind.${place}`); place++) {
		const kind = textOf(form, `kind.${place}`).trim();
		const treatment = textOf(form, `treatment.${place}`);
		if (kind === '') continue;
		if (treatment === 'normal' || treatment === 'closed') treated.push([kind, treatment]);
		if (treatment === 'own') treated.push([kind, stretchesIn(form, `stretches.${place}`)]);
	}
	return Object.fromEntries(treated);
}

function stretchesIn(form: FormData, name: string): string[] {
	const { stretches, unread } = readDay(textOf(form, name));
	return [...stretches, ...unread];
}

function textOf(form: FormData, name: string): string {
	const value = form.get(name);
	return typeof value === 'string' ? value : '';
}
