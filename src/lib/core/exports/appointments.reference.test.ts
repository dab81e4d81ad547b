import { strFromU8, unzipSync } from 'fflate';
import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { enrollSite } from '../../../../tests/support/enroll-site';
import { localDate } from '../calendar/local-date';
import { type RolloutDocument, rolloutSchema } from '../document/schema';
import { exportsByName } from './index';
import { departmentZip, personCalendar } from './person-calendars';
import type { AppointmentRecord } from './support/appointments';

const madeAt = Date.UTC(2027, 0, 20, 12);
const at = (start: string, station = 'desk') => ({ person: 'a', station, lane: 1, start: start as never, minutes: 30 });
type Entry = ReturnType<typeof at> | null;

function siteWith(bookings: readonly object[]): RolloutDocument {
	return enrollSite({
		people: [
			{
				id: 'a',
				name: 'Åsa "Long" Pereira-Kowalczyk-Villanueva, née Ωmega',
				department: 'Packing',
				email: 'a@site.example'
			},
			{ id: 'b', name: 'Bo', department: 'Packing' }
		],
		open: { desk: ['2027-03-14 00:00-12:00'], side: ['2027-03-14 00:00-12:00'] },
		minutes: [30],
		more: {
			bookings: bookings as never,
			invitation: {
				contact: 'Desk "one", ask; here',
				email: 'desk@site.example',
				bring: 'A badge, if any; or none.\nThank you'
			}
		}
	});
}

/** What a record of one booking looks like that was changed so, at changes 2, 3 and on. */
function recordOf(
	first: Entry,
	later: readonly (Entry | { visit: string })[],
	taken: readonly number[],
	when = '2027-01-2'
): AppointmentRecord {
	const changes = later.map((value, place) => ({
		number: place + 2,
		at: `${when}${place}T10:00:00.000Z`,
		entries: [
			value && 'visit' in value
				? { list: 'visits' as const, piece: 9, value: { person: 'a', on: value.visit, outcome: 'no-show' } }
				: { list: 'bookings' as const, piece: 1, value }
		]
	}));
	const entries = first ? [{ list: 'bookings' as const, piece: 1, value: first }] : [];
	return { key: 'rollout', first: entries, changes, takenAt: { people: taken, stations: taken } };
}

function textOf(document: RolloutDocument, name: string, file: string, record?: AppointmentRecord): string | undefined {
	const entry = exportsByName.get(name);
	const input = { document, rollout: rolloutSchema.parse(document), madeAt, today: localDate('2027-01-20'), record };
	const found = entry?.files(input).find((one) => one.name === file) ?? entry?.unlisted?.(input, file);
	return found && String(found.content());
}

function eventOf(text: string | undefined) {
	const calendar = new ICAL.Component(ICAL.parse(text ?? '') as unknown[]);
	const component = calendar.getFirstSubcomponent('vevent');
	if (!component) throw new Error('no event');
	const event = new ICAL.Event(component);
	return {
		method: calendar.getFirstPropertyValue('method'),
		uid: event.uid,
		sequence: event.sequence,
		status: component.getFirstPropertyValue('status'),
		from: event.startDate.toUnixTime(),
		to: event.endDate.toUnixTime(),
		component,
		event
	};
}

const mine = personCalendar('a');
const withdrawn = personCalendar('a', '-withdrawn');

test('ical.js reads the same instants across the clock change of 2027-03-14 in Chicago (RFC 5545, section 3.6.5)', () => {
	const { method, from, to, event, component } = eventOf(
		textOf(siteWith([at('2027-03-14T01:45')]), 'person-calendars', mine)
	);
	expect([from, to]).toEqual([Date.UTC(2027, 2, 14, 7, 45) / 1000, Date.UTC(2027, 2, 14, 8, 15) / 1000]);
	expect(method).toBe('REQUEST');
	expect(event.description).toContain('To bring: A badge, if any; or none.\nThank you');
	expect(component.getFirstProperty('organizer')?.getFirstValue()).toBe('mailto:desk@site.example');
	expect(component.getFirstProperty('attendee')?.getFirstValue()).toBe('mailto:a@site.example');
	expect(component.getFirstProperty('attendee')?.getFirstParameter('cn')).toContain('Ωmega');
});

test('lines are folded at 75 octets, no character cut, and end in CRLF (RFC 5545, section 3.1)', () => {
	const text = textOf(siteWith([at('2027-03-14T01:45')]), 'person-calendars', mine) ?? '';
	const lines = text.split('\r\n');
	for (const line of lines) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
	expect(lines.some((line) => line.startsWith(' '))).toBe(true);
	expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n\ufffd]/);
	expect(text.replaceAll('\r\n ', '')).toContain('Ωmega');
});

test('a booking that is moved, and moved back, keeps its UID and has a higher SEQUENCE each time (RFC 5546, section 2.1.4)', () => {
	const [early, late] = [at('2027-03-14T08:00'), at('2027-03-14T09:00')];
	const first = eventOf(textOf(siteWith([early]), 'person-calendars', mine, recordOf(early, [], [])));
	const moved = eventOf(textOf(siteWith([late]), 'person-calendars', mine, recordOf(early, [late], [1])));
	// Taking a move back is a change too: the calendar must take the earlier time once more.
	const back = eventOf(textOf(siteWith([early]), 'person-calendars', mine, recordOf(early, [late, early], [1, 2])));
	expect([first.sequence, moved.sequence, back.sequence]).toEqual([0, 1, 2]);
	expect(new Set([first.uid, moved.uid, back.uid]).size).toBe(1);
	expect(first.uid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
	expect(back.from).toBe(first.from);
	const told = recordOf(early, [{ ...early, toldOn: '2027-01-20', fixed: true } as never], [1]);
	expect(eventOf(textOf(siteWith([early]), 'person-calendars', mine, told)).sequence).toBe(0);
});

test('a booking that is freed after its calendar was taken is cancelled; before, nobody knows it (RFC 5546, section 3.2.5)', () => {
	const early = at('2027-03-14T08:00');
	const before = eventOf(textOf(siteWith([early]), 'person-calendars', mine, recordOf(early, [], [])));
	const freed = recordOf(early, [null], [1]);
	const gone = eventOf(textOf(siteWith([]), 'person-calendars', withdrawn, freed));
	expect([gone.method, gone.status, gone.uid]).toEqual(['CANCEL', 'CANCELLED', before.uid]);
	expect(gone.sequence).toBeGreaterThan(before.sequence);
	expect(textOf(siteWith([]), 'person-calendars', mine, freed)).toBeUndefined();
	expect(textOf(siteWith([]), 'person-calendars', withdrawn, recordOf(early, [null], []))).toBeUndefined();
	expect(textOf(siteWith([]), 'person-calendars', withdrawn, recordOf(early, [null], [2]))).toBeUndefined();
	// What is over when it is cleared away was kept, and is not cancelled.
	expect(
		textOf(siteWith([]), 'person-calendars', withdrawn, recordOf(early, [null], [1], '2027-04-2'))
	).toBeUndefined();
	// Booked once more, the calendar takes it up again.
	const anew = eventOf(textOf(siteWith([early]), 'person-calendars', mine, recordOf(early, [null, early], [1, 2])));
	expect([anew.uid, anew.status]).toEqual([before.uid, 'CONFIRMED']);
	expect(anew.sequence).toBeGreaterThan(gone.sequence);
});

test('a booking after a visit that took place is another appointment, and withdraws nothing', () => {
	const [early, late] = [at('2027-03-14T08:00'), at('2027-03-16T08:00')];
	const record = recordOf(early, [{ visit: '2027-03-14' }, late], [1]);
	const next = eventOf(textOf(siteWith([late]), 'person-calendars', mine, record));
	expect(next.uid).not.toBe(eventOf(textOf(siteWith([early]), 'person-calendars', mine, recordOf(early, [], []))).uid);
	expect(next.sequence).toBe(0);
	expect(textOf(siteWith([late]), 'person-calendars', withdrawn, record)).toBeUndefined();
});

test('moved to another station, it is withdrawn at the one and new at the other', () => {
	const [here, there] = [at('2027-03-14T08:00'), at('2027-03-14T08:00', 'side')];
	const record = recordOf(here, [there], [1]);
	const first = eventOf(textOf(siteWith([here]), 'station-calendars', 'station-desk.ics', recordOf(here, [], [])));
	const left = eventOf(textOf(siteWith([there]), 'station-calendars', 'station-desk-withdrawn.ics', record));
	const come = eventOf(textOf(siteWith([there]), 'station-calendars', 'station-side.ics', record));
	expect([left.method, left.uid, left.sequence]).toEqual(['CANCEL', first.uid, 1]);
	expect([come.method, come.status]).toEqual(['PUBLISH', 'CONFIRMED']);
	expect(come.uid).not.toBe(left.uid);
	expect(textOf(siteWith([there]), 'person-calendars', withdrawn, record)).toBeUndefined();
});

test('the zip of a department holds the calendar of each who is booked, and withdrawals in a folder', () => {
	const document = siteWith([{ ...at('2027-03-14T08:00'), person: 'b' }]);
	const record = recordOf(at('2027-03-14T09:00'), [null], [1]);
	const first = [...record.first, { list: 'bookings' as const, piece: 2, value: document.enrollment?.bookings?.[0] }];
	const input = { document, rollout: rolloutSchema.parse(document), madeAt, today: localDate('2027-01-20') };
	const files = exportsByName.get('person-calendars')?.files({ ...input, record: { ...record, first } }) ?? [];
	expect(files.map(({ name, about }) => [name, about])).toEqual([
		[departmentZip('Packing'), 'Packing: 1 booked, 1 withdrawn']
	]);
	const entries = unzipSync(files[0]?.content() as Uint8Array);
	expect(Object.keys(entries).sort()).toEqual([personCalendar('b'), `withdrawn/${withdrawn}`]);
	// Somebody without an address cannot be asked for an answer.
	expect(eventOf(strFromU8(entries[personCalendar('b')] ?? new Uint8Array())).method).toBe('PUBLISH');
});
