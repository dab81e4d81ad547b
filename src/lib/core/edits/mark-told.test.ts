import { expect, test } from 'vitest';
import { enrollSite } from '../../../../tests/support/enroll-site';
import type { RolloutDocument } from '../document/schema';
import { applyEdit } from './index';
import { readDocument } from '../document/read';

const site = enrollSite({
	people: [{ id: 'a' }, { id: 'b' }],
	open: { desk: ['2027-02-01 08:00-09:00'] },
	lanes: 2,
	more: {
		bookings: [
			{ person: 'a', station: 'desk', lane: 1, start: '2027-02-01T08:00' as never, minutes: 8 },
			{ person: 'b', station: 'desk', lane: 1, start: '2027-02-01T08:10' as never, minutes: 8 }
		]
	}
});

function edited(document: RolloutDocument, edit: string, params: unknown): RolloutDocument {
	const read = readDocument(JSON.stringify(document), { regimes: [] });
	if (!read.ok) throw new Error(JSON.stringify(read.faults));
	const after = applyEdit(read.value, edit, params);
	if (!after.ok) throw new Error(JSON.stringify(after.faults));
	return after.value.document;
}

const told = edited(site, 'mark-told', { people: ['a'], on: '2027-01-20' });
const bookingOf = (document: RolloutDocument, person: string) =>
	document.enrollment?.bookings?.find((booking) => booking.person === person);
const moved = (document: RolloutDocument, change: object): RolloutDocument =>
	edited(document, 'set-bookings', {
		bookings: (document.enrollment?.bookings ?? []).map(({ person, station, lane, start, minutes }) => ({
			...{ person, station, lane, start, minutes },
			...(person === 'a' ? change : {})
		}))
	});

test('only who was told is marked, and it can be taken back', () => {
	expect(bookingOf(told, 'a')?.toldOn).toBe('2027-01-20');
	expect(bookingOf(told, 'b')).toBe(bookingOf(told, 'b'));
	expect(bookingOf(told, 'b')).not.toHaveProperty('toldOn');
	expect(edited(told, 'mark-told', { people: ['a'], on: null })).toEqual(site);
});

test('who is not booked cannot be told, with the place of each', () => {
	const read = readDocument(JSON.stringify(site), { regimes: [] });
	const refused = read.ok && applyEdit(read.value, 'mark-told', { people: ['a', 'c'], on: '2027-01-20' });
	expect(refused).toMatchObject({ ok: false, faults: [{ path: '$.people[1]', value: 'c' }] });
});

test('a plan that moves somebody keeps what they were told of until they are told anew', () => {
	const later = moved(told, { start: '2027-02-01T08:30' });
	expect(bookingOf(later, 'a')).toEqual({
		...{ person: 'a', station: 'desk', lane: 1, start: '2027-02-01T08:30', minutes: 8 },
		toldOf: { station: 'desk', start: '2027-02-01T08:00', on: '2027-01-20' }
	});
	// Moved once more, it is still the first that they know; moved back, they know it again.
	expect(bookingOf(moved(later, { start: '2027-02-01T08:40' }), 'a')?.toldOf?.start).toBe('2027-02-01T08:00');
	expect(bookingOf(moved(later, { start: '2027-02-01T08:00' }), 'a')).toEqual(bookingOf(told, 'a'));
	const anew = bookingOf(edited(later, 'mark-told', { people: ['a'], on: '2027-01-25' }), 'a');
	expect([anew?.toldOn, anew?.toldOf]).toEqual(['2027-01-25', undefined]);
});

test('another lane at the same time need not be told', () => {
	expect(bookingOf(moved(told, { lane: 2 }), 'a')).toMatchObject({ lane: 2, toldOn: '2027-01-20' });
});
