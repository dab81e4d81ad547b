import fc from 'fast-check';
import ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { rolloutOf as readPlain } from '../../../../tests/agreement/agree';
import { eventsOfCalendar, expandedByIcal } from '../../../../tests/support/read-ical';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { smallRollouts } from '../../../../tests/support/small-rollouts';
import { AccessModel } from '../access/model';
import { clip } from '../calendar/spans';
import type { Rollout, RolloutDocument } from '../document/schema';
import schedules from './schedule-calendars';
import holidays from './holiday-calendar';

const madeAt = Date.UTC(2027, 0, 4, 12);
const input = (rollout: Rollout) => ({ document: {} as RolloutDocument, rollout, madeAt, today: rollout.horizon.from });

/** What the core says and what ical.js, an independent library, reads out of the calendar, schedule by schedule. */
function bothReadings(rollout: Rollout) {
	const model = new AccessModel(rollout);
	const files = schedules.files(input(rollout));
	return rollout.schedules.map(({ id }, place) => ({
		core: clip(model.openSpans(id), model.range.from, model.range.to).map(({ from, to }) => [from, to]),
		ical: expandedByIcal(String(files[place]?.content() ?? '')),
		elapsed: expandedByIcal(String(files[place]?.content() ?? ''), 'elapsed')
	}));
}

describe('the calendars of schedules', () => {
	test('ical.js expands them to the minutes of the core, for random schedules around clock changes', () => {
		fc.assert(
			fc.property(smallRollouts(30), (document) => {
				for (const { core, ical, elapsed } of bothReadings(readPlain(document))) {
					expect(ical).toEqual(core);
					expect(elapsed).toEqual(core);
				}
			}),
			{ numRuns: 150 }
		);
	});

	test('and over several years with many holidays', () => {
		const days = Array.from({ length: 60 }, (_, n) => ({
			date: new Date(Date.UTC(2026, 0, 1 + n * 23)).toISOString().slice(0, 10),
			kind: n % 3 === 0 ? 'public' : 'half-day'
		}));
		for (const timeZone of ['America/Chicago', 'Australia/Lord_Howe', 'Africa/Casablanca', 'Asia/Kolkata', 'UTC']) {
			const rollout = rolloutOf({
				site: { name: 'Any; site', timeZone },
				horizon: { from: '2026-01-05', until: '2029-11-30' } as never,
				schedules: [
					{
						id: 'night',
						from: '2026-02-03' as never,
						until: '2029-10-28' as never,
						week: {
							mon: ['22:00-06:00'],
							tue: ['22:00-06:00', '07:00-19:00'],
							sat: ['00:00-24:00'],
							sun: ['02:00-03:00']
						},
						holidays: { public: 'closed', 'half-day': ['08:00-12:00', '22:00-02:30'] }
					}
				],
				holidays: { days: days as never }
			});
			for (const { core, ical, elapsed } of bothReadings(rollout)) {
				expect(core.length).toBeGreaterThan(500);
				expect(ical).toEqual(core);
				expect(elapsed).toEqual(core);
			}
		}
	});

	test.each(['America/Chicago', 'Europe/Dublin', 'Australia/Lord_Howe', 'Africa/Casablanca', 'Asia/Kathmandu'])(
		'the VTIMEZONE of %s gives the instants of Temporal for every hour that the clock shows once, over two years (RFC 5545, 3.6.5)',
		(timeZone) => {
			const rollout = rolloutOf({ site: { name: 'Any', timeZone }, schedules: [{ id: 'never' }] });
			const text = String(schedules.files(input(rollout))[0]?.content() ?? '');
			const zone = ICAL.Timezone.fromData({
				tzid: timeZone,
				component: /BEGIN:VTIMEZONE.*END:VTIMEZONE/s.exec(text)?.[0]
			});
			// Times that the clock shows once: of the others the calendar has none in a zone.
			const [from, until] = ['2026-06-01T00:30', '2028-06-01T00:00'].map((text) => Temporal.PlainDateTime.from(text));
			for (let at = from; at && until && Temporal.PlainDateTime.compare(at, until) < 0; at = at.add({ hours: 1 })) {
				const [earlier, later] = (['earlier', 'later'] as const).map((disambiguation) =>
					at.toZonedDateTime(timeZone, { disambiguation })
				);
				if (earlier?.epochMilliseconds !== later?.epochMilliseconds) continue;
				const read = ICAL.Time.fromData({ ...partsOf(at), isDate: false }, zone);
				expect(read.toUnixTime() * 1000, at.toString()).toBe(earlier?.epochMilliseconds);
			}
		}
	);

	const office = rolloutOf({
		schedules: [
			{
				id: 'office',
				name: 'Büro, "früh"; spät\nund immer weiter, bis die Zeile viel zu lang für eine Zeile ist',
				week: { mon: ['22:00-06:00'], tue: ['22:00-06:00'], fri: ['07:00-19:00'] },
				holidays: { public: 'closed' }
			}
		],
		holidays: { days: [{ date: '2027-01-13', kind: 'public' }] as never }
	});

	test('a week is one series per stretch, with what a holiday cuts as an event of its own (RFC 5545, 3.8.5)', () => {
		const [file] = schedules.files(input(office));
		const events = eventsOfCalendar(String(file?.content() ?? ''));
		expect(events.map((event) => event.isRecurring())).toEqual([true, true, false]);
		expect(events[0]?.component.getAllProperties('exdate').map((one) => String(one.getFirstValue()))).toEqual([
			'2027-01-12T22:00:00'
		]);
		// The night before the holiday: no clock change touches the nights after Monday and Tuesday.
		expect(events[2]?.startDate.toString()).toBe('2027-01-13T04:00:00Z');
		expect(events[2]?.endDate.toString()).toBe('2027-01-13T06:00:00Z');
	});

	test('lines have at most 75 octets and end in CRLF, text comes back as written, UIDs differ and stay (RFC 5545, 3.1, 3.3.11, 3.8.4.7)', () => {
		const [file] = schedules.files(input(office));
		const text = String(file?.content() ?? '');
		for (const line of text.split('\r\n')) {
			expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
			expect(line).not.toMatch(/[\r\n]/);
		}
		const events = eventsOfCalendar(text);
		expect(events[0]?.summary).toBe(`${office.schedules[0]?.name} 22:00-06:00`);
		expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
		const later = String(schedules.files({ ...input(office), madeAt: madeAt + 86_400_000 })[0]?.content() ?? '');
		expect(later).not.toBe(text);
		expect(later.replaceAll(/^DTSTAMP:.*$/gm, '')).toBe(text.replaceAll(/^DTSTAMP:.*$/gm, ''));
	});
});

test('holidays are events of whole days, also over a clock change (RFC 5545, 3.6.1)', () => {
	const days = [
		{ date: '2027-03-14', name: 'Day of the clock', kind: 'public' },
		{ date: '2027-03-14', name: 'Listed again', kind: 'shutdown' },
		{ date: '2027-01-01', kind: 'half-day' }
	];
	const [file] = holidays.files(input(rolloutOf({ holidays: { days: days as never } })));
	const events = eventsOfCalendar(String(file?.content() ?? ''));
	expect(events.map(({ summary, startDate, endDate }) => [summary, startDate.toString(), endDate.toString()])).toEqual([
		['half-day', '2027-01-01', '2027-01-02'],
		['Day of the clock', '2027-03-14', '2027-03-15']
	]);
	expect(events[0]?.component.getFirstPropertyValue('transp')).toBe('TRANSPARENT');
});

function partsOf({ year, month, day, hour, minute, second }: Temporal.PlainDateTime) {
	return { year, month, day, hour, minute, second };
}
