import { deserialize } from '$app/forms';
import type { DayDesk } from '$lib/components/enrollment/day-desk';
import { sheetHref } from '$lib/components/sheet/sheets';

/** What the timetable asks of the server while somebody moves a booking. */

/** The timetable of a date, with what judges moves on it. */
export async function fetchDesk(rollout: string, date: string): Promise<DayDesk> {
	const response = await fetch(`${sheetHref(rollout, 'plan/day')}?date=${encodeURIComponent(date)}`);
	if (!response.ok) throw new Error(`the timetable of ${date} was not given (${response.status})`);
	return (await response.json()) as DayDesk;
}

/** Sends where somebody was put, as the form would. @returns why it was refused, null when it is saved */
export async function saveMove(move: Readonly<Record<string, string | number>>): Promise<string | null> {
	const body = new FormData();
	for (const [name, value] of Object.entries(move)) body.set(name, String(value));
	try {
		const response = await fetch('?/moveBooking', { method: 'POST', headers: { 'x-sveltekit-action': 'true' }, body });
		const result = deserialize(await response.text());
		if (result.type === 'redirect' || result.type === 'success') return null;
		const faults =
			result.type === 'failure' ? (result.data?.['faults'] as { message: string }[] | undefined) : undefined;
		return faults?.map(({ message }) => message).join(' ') ?? 'The server could not save it.';
	} catch {
		return 'The server was not reached; nothing was saved.';
	}
}
