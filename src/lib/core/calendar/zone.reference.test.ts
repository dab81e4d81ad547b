import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { type LocalDate, dateOf, epochDayOf, localDate, plusDays } from './local-date';
import { type LocalDateTime, localDateTimeOf, wallTimeOf } from './local-date-time';
import { stretch } from './stretch';
import { isTimeZone } from './time-zone-name';
import { type Instant, Zone } from './zone';

function zoneAround(name: string, date: string): Zone {
	const day = epochDayOf(localDate(date));
	return new Zone(name, plusDays(day, -10), plusDays(day, 10));
}

function instantText(name: string, at: string): string {
	const zone = zoneAround(name, at.slice(0, 10));
	return zone.textOf(zone.instantOf(wallTimeOf(at as LocalDateTime)));
}

/** Hours that pass from the start of a stretch that begins on a date to its end. */
function hoursOf(name: string, date: string, text: string): number {
	const zone = zoneAround(name, date);
	const day = epochDayOf(localDate(date));
	const { from, to } = stretch(text);
	return (zone.instantOf({ day, minute: to }) - zone.instantOf({ day, minute: from })) / 3600;
}

describe('RFC 5545, section 3.3.5: times that a clock change skips or repeats', () => {
	it('V-DST-01: a repeated time is its first occurrence', () => {
		expect(instantText('America/New_York', '2007-11-04T01:30')).toBe('2007-11-04T01:30:00-04:00');
	});

	it('V-DST-02: a time that does not exist is read with the offset before the gap', () => {
		expect(instantText('America/New_York', '2007-03-11T02:30')).toBe('2007-03-11T03:30:00-04:00');
	});

	it.each([
		['Europe/London', '2027-03-27', 7],
		['Europe/London', '2027-10-30', 9],
		['America/New_York', '2027-03-13', 7],
		['America/New_York', '2027-11-06', 9]
	])('V-DST-03: the night 22:00-06:00 in %s from %s on lasts %i hours', (name, date, hours) => {
		expect(hoursOf(name, date, '22:00-06:00')).toBe(hours);
	});

	it.each([
		['2027-03-28', 23],
		['2027-10-31', 25],
		['2027-06-01', 24]
	])('V-DST-03: the date %s lasts %i hours in London', (date, hours) => {
		const zone = zoneAround('Europe/London', date);
		const day = epochDayOf(localDate(date));
		expect((zone.midnightOf(plusDays(day, 1)) - zone.midnightOf(day)) / 3600).toBe(hours);
	});

	it.each([
		['Europe/London', '2027-03-28T01:30', '2027-03-28T02:30:00+01:00'],
		['Europe/London', '2027-10-31T01:30', '2027-10-31T01:30:00+01:00'],
		['Europe/Paris', '2027-03-28T02:30', '2027-03-28T03:30:00+02:00'],
		['Australia/Sydney', '2027-10-03T02:30', '2027-10-03T03:30:00+11:00'],
		['Australia/Sydney', '2027-04-04T02:30', '2027-04-04T02:30:00+11:00']
	])('V-DST-04: %s %s is %s', (name, at, expected) => {
		expect(instantText(name, at)).toBe(expected);
	});

	it('V-DST-05: Sunday 01:00-02:00 has no length in London on 2027-03-28, and 01:30 does not exist', () => {
		const day = epochDayOf(localDate('2027-03-28'));
		const zone = zoneAround('Europe/London', '2027-03-28');
		expect(zone.instantOf({ day, minute: 60 })).toBe(zone.instantOf({ day, minute: 120 }));
		expect(zone.fateOf({ day, minute: 90 })).toBe('skipped');
	});

	it.each([
		['2026-03-29', '2026-10-25'],
		['2027-03-28', '2027-10-31'],
		['2028-03-26', '2028-10-29']
	])('gov.uk, when do the clocks change: %s and %s', (spring, autumn) => {
		const year = spring.slice(0, 4);
		const zone = new Zone(
			'Europe/London',
			epochDayOf(localDate(`${year}-01-01`)),
			epochDayOf(localDate(`${year}-12-31`))
		);
		expect(zone.clockChanges.map(({ at }) => dateOf(zone.dayAt(at)))).toEqual([spring, autumn]);
	});
});

/** What Temporal says of a zone, the independent library. */
const temporal = {
	instantOf(name: string, at: string): number {
		const read = Temporal.PlainDateTime.from(at).toZonedDateTime(name, { disambiguation: 'compatible' });
		return read.epochMilliseconds / 1000;
	},
	fateOf(name: string, at: string): 'skipped' | 'repeated' | 'once' {
		const wall = Temporal.PlainDateTime.from(at);
		const [earlier, later] = (['earlier', 'later'] as const).map((disambiguation) =>
			wall.toZonedDateTime(name, { disambiguation })
		);
		if (earlier?.epochNanoseconds === later?.epochNanoseconds) return 'once';
		return later?.toPlainDateTime().equals(wall) === true ? 'repeated' : 'skipped';
	},
	changesOf(name: string, from: string, until: string): number[] {
		const end = Temporal.PlainDate.from(until).toZonedDateTime(name).epochMilliseconds;
		const changes: number[] = [];
		let at = Temporal.PlainDate.from(from).toZonedDateTime(name).getTimeZoneTransition('next');
		while (at !== null && at.epochMilliseconds < end) {
			const offset = at.offsetNanoseconds;
			// A change of name or of law alone is no clock change.
			if (at.subtract({ nanoseconds: 1 }).offsetNanoseconds !== offset) changes.push(at.epochMilliseconds / 1000);
			at = at.getTimeZoneTransition('next');
		}
		return changes;
	}
};

const unusual = [
	...['America/Havana', 'Africa/Cairo', 'Asia/Beirut', 'America/Asuncion', 'America/Santiago', 'Pacific/Apia'],
	...['America/St_Johns', 'Africa/Casablanca', 'America/Nuuk', 'Antarctica/Troll', 'Australia/Lord_Howe'],
	...['Asia/Pyongyang', 'America/Caracas', 'Pacific/Kiritimati', 'Asia/Gaza', 'America/Scoresbysund', 'Asia/Kathmandu']
];
const some = Intl.supportedValuesOf('timeZone').filter((_, index) => index % 25 === 3);

describe('Temporal (library temporal-polyfill) in every 25th zone and in the unusual ones', () => {
	it.each([...new Set([...unusual, ...some])])('%s', (name) => {
		expect(isTimeZone(name)).toBe(true);
		for (const [from, until] of [
			['2010-07-01', '2012-01-31'],
			['2023-09-01', '2025-04-30'],
			['2027-01-01', '2027-12-31']
		] as const) {
			const zone = new Zone(name, epochDayOf(localDate(from)), epochDayOf(localDate(until)));
			const [start, end] = [temporal.instantOf(name, `${from}T00:00`), temporal.instantOf(name, `${until}T00:00`)];
			const changes = zone.clockChanges.map(({ at }) => at).filter((at) => at > start && at < end);
			expect(changes).toEqual(temporal.changesOf(name, from, until));
			for (const at of [start, ...changes]) judge(zone, name, at as Instant);
		}
	});

	/** The two dates at an instant, by quarters of an hour and beside midnight. */
	function judge(zone: Zone, name: string, at: Instant): void {
		for (const day of [plusDays(zone.dayAt(at), -1), zone.dayAt(at)]) {
			const date: LocalDate = dateOf(day);
			const midnight = Temporal.PlainDate.from(date).toZonedDateTime(name);
			expect(zone.hasDate(day)).toBe(midnight.toPlainDate().toString() === date);
			expect(zone.midnightOf(day)).toBe(midnight.epochMilliseconds / 1000);
			const minutes = [1, 1439, ...Array.from({ length: 96 }, (_, quarter) => quarter * 15)];
			const walls = minutes.map((minute) => ({ minute, wall: localDateTimeOf({ day, minute }) }));
			expect(
				walls.map(({ minute, wall }) => [wall, zone.instantOf({ day, minute }), zone.fateOf({ day, minute })])
			).toEqual(walls.map(({ wall }) => [wall, temporal.instantOf(name, wall), temporal.fateOf(name, wall)]));
		}
		for (const minutes of [-60, -1, 0, 1, 30, 60]) {
			const moment = (at + minutes * 60) as Instant;
			const expected = Temporal.Instant.fromEpochMilliseconds(moment * 1000).toZonedDateTimeISO(name);
			expect(zone.textOf(moment)).toBe(expected.toString({ timeZoneName: 'never', smallestUnit: 'second' }));
			const { day, minute } = zone.wallTimeAt(moment);
			expect(localDateTimeOf({ day, minute })).toBe(expected.toPlainDateTime().toString({ smallestUnit: 'minute' }));
		}
	}
});
