/** Shifts of a pattern as people type them: the day of the cycle and its stretches on each line. */

interface Shift {
	readonly day: number | string;
	readonly at: string;
}

/** One line per day of the cycle, counted from 1 as people do: `1 06:00-14:00`. */
export function shiftLines(shifts: readonly { readonly day: number; readonly at: string }[]): string {
	const byDay = new Map<number, string[]>();
	for (const { day, at } of shifts.toSorted((a, b) => a.day - b.day)) byDay.set(day, [...(byDay.get(day) ?? []), at]);
	return [...byDay].map(([day, stretches]) => `${day + 1} ${stretches.join(' ')}`).join('\n');
}

/**
 * Reads such lines; `1-5 06:00-14:00` means each of these days. What cannot be read is kept, for the schema to refuse with
 * its place.
 */
export function readShifts(text: string): Shift[] {
	return text.split(/\r?\n/).flatMap((line): Shift[] => {
		const [days, ...stretches] = line.trim().split(/[\s,;]+/);
		if (days === undefined || days === '') return [];
		const range = /^(\d+)(?:-(\d+))?$/.exec(days);
		if (!range) return [{ day: days, at: stretches.join(' ') }];
		const [first, last] = [Number(range[1]), Number(range[2] ?? range[1])];
		const count = Math.min(Math.max(0, last - first + 1), 1000);
		return Array.from({ length: count }, (_, index) => first - 1 + index).flatMap((day) =>
			(stretches.length === 0 ? [''] : stretches).map((at) => ({ day, at }))
		);
	});
}
