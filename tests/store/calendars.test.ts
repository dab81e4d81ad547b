import ICAL from 'ical.js';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { editRollout, needRollout, undo } from '../../src/lib/server/rollouts';
import { findExportFile } from '../../src/lib/server/exports';
import { call } from '../support/api';
import { useDataFolder } from '../support/data-folder';
import { enrollSite } from '../support/enroll-site';
import { valueOf } from '../support/outcomes';

// What calendars say of a booking over the changes that the store keeps, undoings among them.

let data: ReturnType<typeof useDataFolder>;
beforeEach(() => {
	data = useDataFolder();
});
afterEach(() => data.end());

test('calendars follow a booking through its changes in the store, and withdraw it once it is freed', async () => {
	const booking = { person: 'a', station: 'desk', lane: 1, start: '2027-02-01T08:00', minutes: 8 };
	const site = enrollSite({
		people: [{ id: 'a' }, { id: 'b' }],
		open: { desk: ['2027-02-01 08:00-09:00'] },
		more: { bookings: [booking as never, { ...booking, person: 'b', start: '2027-02-01T08:30' } as never] }
	});
	const made = await call('POST', '/api/v1/rollouts', {
		body: JSON.stringify(site),
		headers: { 'content-type': 'application/json' }
	});
	const { id } = made.json as { id: string };
	const read = (file: string) => {
		const found = findExportFile(valueOf(needRollout(id)), 'person-calendars', file);
		if (!found.ok) return undefined;
		const calendar = new ICAL.Component(ICAL.parse(String(found.value.content())) as unknown[]);
		const event = new ICAL.Event(calendar.getFirstSubcomponent('vevent') as ICAL.Component);
		return [event.uid, event.sequence, event.startDate.toString(), calendar.getFirstPropertyValue('method')];
	};
	const put = (start: string) =>
		valueOf(editRollout(id, 'put-entry', { collection: 'bookings', entry: { ...booking, start }, at: 0 }, 'Ida'));
	const [uid, first] = read('appointment-a.ics') ?? [];
	expect(first).toBe(0);
	put('2027-02-01T08:10');
	expect(read('appointment-a.ics')).toEqual([uid, 1, '2027-02-01T08:10:00', 'PUBLISH']);
	valueOf(undo(id, 'Ida'));
	expect(read('appointment-a.ics')).toEqual([uid, 2, '2027-02-01T08:00:00', 'PUBLISH']);
	expect(read('appointment-b.ics')?.slice(1)).toEqual([0, '2027-02-01T08:30:00', 'PUBLISH']);
	expect(read('appointment-a-withdrawn.ics')).toBeUndefined();
	valueOf(editRollout(id, 'remove-entry', { collection: 'bookings', at: 0 }, 'Ida'));
	expect(read('appointment-a.ics')).toBeUndefined();
	expect(read('appointment-a-withdrawn.ics')).toEqual([uid, 3, '2027-02-01T08:00:00', 'CANCEL']);
	expect(read('appointment-b.ics')?.[1]).toBe(0);
});
