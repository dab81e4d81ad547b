import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { localDate } from '../calendar/local-date';
import type { RolloutDocument } from '../document/schema';
import type { ExportedFile } from './define-export';
import { exportsByName } from './index';

const people = [
	{ id: '=1+1', name: 'Ann "Rolling" Sørby, Ms' },
	{ id: 'A b', name: '@total' }
];
const parts: Partial<RolloutDocument> = {
	areas: [{ id: 'street', outside: true }],
	people,
	enrollment: {
		captureClasses: [{ id: 'standard', minutes: 30 }],
		stations: [{ id: 's 1', name: 'Lobby; desk', area: 'street', lanes: 2, open: [] }],
		bookings: [
			{ person: '=1+1', station: 's 1', lane: 1, start: '2027-03-14T01:45' as never, minutes: 30 },
			{ person: 'A b', station: 's 1', lane: 2, start: '2027-03-15T08:00' as never, minutes: 30 }
		]
	}
};

function filesOf(name: string, document: Partial<RolloutDocument> = parts): readonly ExportedFile[] {
	const rollout = rolloutOf(document);
	const entry = exportsByName.get(name);
	if (!entry) throw new Error(`no export ${name}`);
	const raw = document as RolloutDocument;
	return entry.files({ document: raw, rollout, madeAt: Date.UTC(2027, 0, 4, 12), today: localDate('2027-01-04') });
}

test('the calendar of a station is read by ical.js, an independent library, with the right instants (RFC 5545)', () => {
	const [file] = filesOf('station-calendars');
	const calendar = new ICAL.Component(ICAL.parse(String(file?.content() ?? '')) as unknown[]);
	const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
	expect(events.map((event) => event.startDate.toUnixTime())).toEqual([
		Date.UTC(2027, 2, 14, 7, 45) / 1000,
		Date.UTC(2027, 2, 15, 13, 0) / 1000
	]);
	// Across the clock change of 14 March the half hour stays half an hour.
	expect(events.map((event) => event.duration.toSeconds())).toEqual([1800, 1800]);
	expect(new Set(events.map((event) => event.uid)).size).toBe(2);
	expect(events[0]?.location).toBe('Lobby; desk, street, Invented site');
	expect(filesOf('station-calendars')[0]?.content()).toBe(file?.content());
});

test('lines of the calendar are at most 75 octets and end in CRLF (RFC 5545, section 3.1)', () => {
	const [file] = filesOf('station-calendars');
	for (const line of String(file?.content() ?? '').split('\r\n')) {
		expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
		expect(line).not.toContain('\n');
	}
});

test('an export of nothing writes no file', () => {
	const empty: Partial<RolloutDocument> = {};
	for (const name of exportsByName.keys()) expect(filesOf(name, empty).length, name).toBe(name === 'document' ? 1 : 0);
});
