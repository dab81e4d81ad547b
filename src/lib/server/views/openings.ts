/** Open stretches of a station as people type them: a date and one or more stretches on each line. */

interface Opening {
	readonly date: string;
	readonly at: string;
}

/** One line per date: `2027-01-11 08:00-12:00 13:00-16:00`, in the order of dates. */
export function openingLines(openings: readonly Opening[]): string {
	const byDate = new Map<string, string[]>();
	for (const { date, at } of openings.toSorted((a, b) => (a.date + a.at < b.date + b.at ? -1 : 1))) {
		byDate.set(date, [...(byDate.get(date) ?? []), at]);
	}
	return [...byDate].map(([date, stretches]) => `${date} ${stretches.join(' ')}`).join('\n');
}

/** Reads such lines. What is no date or no stretch is kept as it stands, for the schema to refuse with its place. */
export function readOpenings(text: string): Opening[] {
	return text.split(/\r?\n/).flatMap((line) => {
		const [date, ...stretches] = line.trim().split(/[\s,;]+/);
		if (date === undefined || date === '') return [];
		return stretches.length === 0 ? [{ date, at: '' }] : stretches.map((at) => ({ date, at }));
	});
}
