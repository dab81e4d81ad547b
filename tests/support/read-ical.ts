import ICAL from 'ical.js';

/** Minutes between instants, as the list of [from, to) in epoch seconds that do not touch. */
export type Instants = readonly (readonly [number, number])[];

/** The union of spans, sorted, touching ones made one. */
export function unionOf(spans: readonly (readonly [number, number])[]): Instants {
	const union: [number, number][] = [];
	for (const [from, to] of spans.toSorted((a, b) => a[0] - b[0])) {
		const last = union.at(-1);
		if (from >= to) continue;
		if (last && from <= last[1]) last[1] = Math.max(last[1], to);
		else union.push([from, to]);
	}
	return union;
}

/** The events of a calendar in the reading of ical.js. */
export function eventsOfCalendar(text: string): ICAL.Event[] {
	const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
	return calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

/**
 * Every instant that lies in an event of a calendar, its recurrences expanded by ical.js with the VTIMEZONE that the calendar
 * brings. How long an occurrence lasts is read in one of two ways: as ical.js does, by the wall clock; or in elapsed time (RFC
 * 5545, section 3.8.5.3).
 */
export function expandedByIcal(text: string, lasting: 'wall-clock' | 'elapsed' = 'wall-clock'): Instants {
	return unionOf(
		eventsOfCalendar(text).flatMap((event) => {
			const spans: (readonly [number, number])[] = [];
			const seconds = event.endDate.toUnixTime() - event.startDate.toUnixTime();
			const iterator = event.iterator();
			for (let next = nextOf(iterator); next; next = nextOf(iterator)) {
				const { startDate, endDate } = event.getOccurrenceDetails(next);
				const from = startDate.toUnixTime();
				spans.push([from, lasting === 'elapsed' ? from + seconds : endDate.toUnixTime()]);
			}
			return spans;
		})
	);
}

/** The next start; the types of ical.js say nothing of the end. */
export function nextOf(iterator: { next(): ICAL.Time }): ICAL.Time | undefined {
	return iterator.next();
}
