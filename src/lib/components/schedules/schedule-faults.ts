import { type Weekday, weekdays } from '$lib/core/calendar/local-date';

interface Fault {
	readonly path: string;
	readonly value: unknown;
	readonly expected: string;
}

/** Faults of a refused week, by the day at which they stand: `$.entry.week.mon[1]`. */
export function faultsByDay(faults: readonly Fault[]): Partial<Record<Weekday, string>> {
	const byDay: Partial<Record<Weekday, string>> = {};
	for (const fault of faults) {
		const day = weekdays.find((one) => fault.path.startsWith(`$.entry.week.${one}`));
		if (day !== undefined) byDay[day] ??= sentence(fault);
	}
	return byDay;
}

/** The fault of a refused treatment of a kind; none where it was fine. */
export function faultOfKind(faults: readonly Fault[], kind: string): string | undefined {
	const quoted = `['${kind.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}']`;
	const found = faults.find(({ path }) =>
		['$.entry.holidays', "$['entry']['holidays']"].some(
			(root) => isBelow(path, `${root}.${kind}`) || isBelow(path, root + quoted)
		)
	);
	return found && sentence(found);
}

function isBelow(path: string, root: string): boolean {
	return path === root || path.startsWith(`${root}[`) || path.startsWith(`${root}.`);
}

function sentence({ value, expected }: Fault): string {
	return `Found ${JSON.stringify(value)}, expected ${expected}.`;
}
