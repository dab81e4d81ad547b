import type { PersonRecord } from './person-record';

/** One line of a readable record: what it is called, and what stands there. */
export interface RecordLine {
	readonly label: string;
	readonly value: string;
}

/** A part of a readable record; each entry is a list of lines. */
export interface RecordPart {
	readonly heading: string;
	readonly entries: readonly (readonly RecordLine[])[];
}

const headings: readonly (readonly [keyof PersonRecord, string])[] = [
	['person', 'The person'],
	['named', 'What the names stand for'],
	['absences', 'Absences'],
	['access', 'Access by assignments'],
	['bookings', 'Appointments for enrollment'],
	['visits', 'Visits for enrollment'],
	['consents', 'Decisions about consent'],
	['templates', 'Fingerprint templates: that they exist, and where; never the template itself'],
	['erasureOrders', 'Work orders for erasure'],
	['holds', 'Legal holds'],
	['requests', 'Requests about the data']
];

/** A record in parts, entries and lines, for a sheet and for a terminal. Parts with nothing in them are told as such. */
export function recordParts(record: PersonRecord): RecordPart[] {
	return headings.map(([key, heading]) => {
		const value = record[key];
		const entries: readonly unknown[] = Array.isArray(value) ? value : [value];
		return { heading, entries: entries.map((entry) => linesOf(entry, '')).filter((lines) => lines.length > 0) };
	});
}

/** A record as text. */
export function recordText(record: PersonRecord): string {
	const parts = recordParts(record).map(({ heading, entries }) => {
		const told = entries.map((lines) => lines.map(({ label, value }) => `  ${label}: ${value}`).join('\n'));
		return [heading, ...(told.length === 0 ? ['  Nothing is held.'] : told)].join('\n');
	});
	return [
		`Everything held on ${record.person.name ?? record.person.id} for ${record.site.name}, on ${record.on}`,
		...parts,
		['Left out', ...record.leftOut.map((one) => `  ${one}`)].join('\n')
	].join('\n\n');
}

function linesOf(value: unknown, label: string): RecordLine[] {
	if (value === null || value === undefined) return [];
	if (Array.isArray(value)) {
		const items: readonly unknown[] = value;
		if (items.length === 0) return [];
		if (items.every(isPlain)) return [{ label, value: items.map(plainText).join(', ') }];
		return items.flatMap((one, place) => linesOf(one, `${label} ${place + 1}`));
	}
	if (isPlain(value)) return [{ label, value: plainText(value) }];
	return Object.entries(value).flatMap(([key, one]) =>
		linesOf(one, label === '' ? wordsOf(key) : `${label}, ${wordsOf(key)}`)
	);
}

function isPlain(value: unknown): value is string | number | boolean {
	return typeof value !== 'object';
}

function plainText(value: string | number | boolean): string {
	return typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
}

/** `enrolledOn` as people say it: `enrolled on`. */
function wordsOf(key: string): string {
	return key.replaceAll(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}
