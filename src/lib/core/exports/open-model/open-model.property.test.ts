import fc from 'fast-check';
import ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { rolloutOf as readPlain } from '../../../../../tests/agreement/agree';
import { nextOf } from '../../../../../tests/support/read-ical';
import { rolloutOf } from '../../../../../tests/support/rollout-of';
import { smallRollouts } from '../../../../../tests/support/small-rollouts';
import { AccessModel } from '../../access/model';
import { contains } from '../../calendar/spans';
import type { Rollout } from '../../document/schema';
import { openModelOf } from './index';
import type { OpenModel, OpenSchedule } from './shapes';

const madeAt = Date.UTC(2027, 0, 4, 12);

// The shapes once more, from the specifications alone: section 1.1 to 1.3 of the facts that this project was given.
const token = z
	.string()
	.min(1)
	.refine((text) => [...text].length <= 64);
const described = { Name: token, Description: z.string().max(1024).optional() };
const time = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d:[0-5]\d$/);
const dateTime = z.iso.datetime({ offset: true });
const period = z
	.strictObject({ From: time, Until: time.optional() })
	.refine(({ From, Until }) => Until === undefined || Until > From, 'Until is greater than From (InvalidArgVal)');
const strictModel = z.strictObject({
	SpecialDayGroup: z.array(z.strictObject({ token, ...described, Days: z.string() })),
	Schedule: z.array(
		z.strictObject({
			token,
			...described,
			Standard: z.string(),
			SpecialDays: z.array(z.strictObject({ GroupToken: token, TimeRange: z.array(period) }))
		})
	),
	AccessProfile: z.array(
		z.strictObject({
			token,
			...described,
			AccessPolicy: z.array(z.strictObject({ ScheduleToken: token, Entity: token }))
		})
	),
	Credential: z.array(
		z.strictObject({
			token,
			CredentialHolderReference: z.string().max(128),
			ValidFrom: dateTime.optional(),
			ValidTo: dateTime.optional(),
			CredentialAccessProfile: z.array(
				z.strictObject({ AccessProfileToken: token, ValidFrom: dateTime.optional(), ValidTo: dateTime.optional() })
			)
		})
	)
});

/** Tokens are unique by kind, and every one that is named is there (fault ReferenceNotFound). */
function danglingTokens({ SpecialDayGroup, Schedule, AccessProfile, Credential }: OpenModel): string[] {
	const tokensOf = (list: readonly { token: string }[]) => {
		const tokens = new Set(list.map((one) => one.token));
		expect(tokens.size).toBe(list.length);
		return tokens;
	};
	const [groups, schedules, profiles] = [tokensOf(SpecialDayGroup), tokensOf(Schedule), tokensOf(AccessProfile)];
	tokensOf(Credential);
	for (const one of Credential) {
		const given = one.CredentialAccessProfile.map(({ AccessProfileToken }) => AccessProfileToken);
		expect(new Set(given).size).toBe(given.length);
	}
	return [
		...Schedule.flatMap(({ SpecialDays }) => SpecialDays.map(({ GroupToken }) => GroupToken)).filter(
			(one) => !groups.has(one)
		),
		...AccessProfile.flatMap(({ AccessPolicy }) => AccessPolicy.map(({ ScheduleToken }) => ScheduleToken)).filter(
			(one) => !schedules.has(one)
		),
		...Credential.flatMap((one) =>
			one.CredentialAccessProfile.map(({ AccessProfileToken }) => AccessProfileToken)
		).filter((one) => !profiles.has(one))
	];
}

/** Events of an iCalendar string without zone, as ical.js expands them: minutes since 1970 on the clock on the wall. */
function wallMinutes(text: string, until: ICAL.Time): (readonly [number, number])[] {
	const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
	return calendar.getAllSubcomponents('vevent').flatMap((component) => {
		const event = new ICAL.Event(component);
		const spans: (readonly [number, number])[] = [];
		const iterator = event.iterator();
		for (let next = nextOf(iterator); next; next = nextOf(iterator)) {
			if (next.compare(until) > 0) break;
			const { startDate, endDate } = event.getOccurrenceDetails(next);
			spans.push([startDate.toUnixTime() / 60, endDate.toUnixTime() / 60]);
		}
		return spans;
	});
}

/** Series that begin in 1970 and never end, moved on by whole weeks: the same weeks, without the half century before. */
function movedOn(text: string, from: string): string {
	const weeks = Math.floor((Date.parse(from) - Date.UTC(1970, 0, 1)) / 604_800_000) - 2;
	return text.replaceAll(/^(DTSTART|DTEND):(1970\d{4})T/gm, (_, name: string, date: string) => {
		const moved = Temporal.PlainDate.from(date).add({ weeks });
		return `${name}:${moved.toString().replaceAll('-', '')}T`;
	});
}

/** A small interpreter of the model: is a schedule active at a minute of the clock on the wall? */
function interpreter(model: OpenModel, schedule: OpenSchedule, from: string, until: string): (wall: number) => boolean {
	const end = ICAL.Time.fromDateTimeString(`${Temporal.PlainDate.from(until).add({ days: 3 }).toString()}T00:00:00`);
	const start = Date.parse(`${from}T00:00:00Z`) / 60_000 - 3 * 1440;
	const regular = new Set<number>();
	for (const [a, b] of wallMinutes(movedOn(schedule.Standard, from), end)) {
		for (let at = Math.max(a, start); at < b; at++) regular.add(at);
	}
	const special = schedule.SpecialDays.map(({ GroupToken, TimeRange }) => ({
		days: wallMinutes(model.SpecialDayGroup.find((group) => group.token === GroupToken)?.Days ?? '', end),
		ranges: TimeRange.map(({ From, Until }) => [minuteOf(From), Until === undefined ? 1440 : minuteOf(Until)] as const)
	}));
	return (wall) => {
		const holding = special.filter(({ days }) => days.some(([a, b]) => a <= wall && wall < b));
		if (holding.length === 0) return regular.has(wall);
		const minute = ((wall % 1440) + 1440) % 1440;
		return holding.some(({ ranges }) => ranges.some(([a, b]) => a <= minute && minute < b));
	};
}

function minuteOf(time: string): number {
	return Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));
}

/**
 * Every minute of the horizon: its instant, and date and minute that the clock shows, by Temporal. Where a clock is turned back
 * past midnight, a date comes in two parts with minutes of its neighbor between them: the date that is shown decides.
 */
function* minutesOf({ site, horizon }: Rollout) {
	const first = Temporal.PlainDate.from(horizon.from).subtract({ days: 1 });
	const last = Temporal.PlainDate.from(horizon.until).add({ days: 2 });
	const start = first.toZonedDateTime(site.timeZone).epochMilliseconds;
	const end = last.toZonedDateTime(site.timeZone).epochMilliseconds;
	for (let quarter = start; quarter < end; quarter += 900_000) {
		// Where the clock changes inside of a quarter, every minute of it is asked.
		const offsetAt = (at: number): number =>
			Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(site.timeZone).offsetNanoseconds;
		const step = offsetAt(quarter) === offsetAt(quarter + 840_000) ? 900_000 : 60_000;
		for (let at = quarter; at < Math.min(quarter + 900_000, end); at += step) {
			const shown = Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(site.timeZone).toPlainDateTime();
			const wall = Date.parse(`${shown.toString({ smallestUnit: 'minute' })}:00Z`) / 60_000;
			const date = shown.toPlainDate().toString();
			if (date < horizon.from || date > horizon.until) continue;
			for (let more = 0; more < step / 60_000; more++) {
				yield { at: at / 1000 + more * 60, wall: wall + more, date };
			}
		}
	}
}

/** Holds a rollout against its model, minute by minute. */
function judge(rollout: Rollout): void {
	const { model, report } = openModelOf(rollout, madeAt);
	expect(strictModel.parse(JSON.parse(JSON.stringify(model)))).toEqual(model);
	expect(danglingTokens(model)).toEqual([]);
	const core = new AccessModel(rollout);
	const minutes = [...minutesOf(rollout)];
	const isActive = new Map<string, (wall: number) => boolean>();
	rollout.schedules.forEach(({ id }, place) => {
		const schedule = model.Schedule[place] as OpenSchedule;
		const active = interpreter(model, schedule, rollout.horizon.from, rollout.horizon.until);
		isActive.set(id, active);
		const told = report.items.filter(({ kind, path }) => kind === 'clock-change' && path === `$.schedules[${place}]`);
		const open = core.openSpans(id);
		const differing = minutes.filter(({ at, wall }) => contains(open, at) !== active(wall));
		expect([...new Set(differing.map(({ date }) => date))].sort()).toEqual(told.flatMap(({ dates = [] }) => dates));
		expect(differing.length).toBe(told.reduce((sum, one) => sum + (one.minutes ?? 0), 0));
	});
	const toldDates = new Set(report.items.flatMap(({ kind, dates = [] }) => (kind === 'clock-change' ? dates : [])));
	for (const { id } of rollout.people) {
		const one = core.findClass(id);
		const credential = model.Credential.find(({ token }) => token === id);
		if (!one || !credential) throw new Error('everybody has a class and a credential');
		rollout.doors.forEach((door, place) => {
			const spans = core.doorSpansOf(one, place);
			const policies = credential.CredentialAccessProfile.flatMap((given) => {
				const profile = model.AccessProfile.find(({ token }) => token === given.AccessProfileToken);
				const named = profile?.AccessPolicy.filter(({ Entity }) => Entity === door.id) ?? [];
				return named.map(({ ScheduleToken }) => ({ given, active: isActive.get(ScheduleToken) }));
			});
			for (let place = 0; place < minutes.length; place += 7) {
				const { at, wall, date } = minutes[place] as (typeof minutes)[number];
				if (toldDates.has(date)) continue;
				const may =
					isValid(credential, at) && policies.some(({ given, active }) => isValid(given, at) && active?.(wall));
				expect(may, `${id} at ${door.id}, ${date}`).toBe(contains(spans, at));
			}
		});
	}
}

/** Validity with an exclusive end (V-CRED-01). */
function isValid({ ValidFrom, ValidTo }: { ValidFrom?: string; ValidTo?: string }, at: number): boolean {
	return (
		(ValidFrom === undefined || Date.parse(ValidFrom) / 1000 <= at) &&
		(ValidTo === undefined || at < Date.parse(ValidTo) / 1000)
	);
}

describe('the open data model', () => {
	test('says the same as the core at every minute, but for the dates that the report tells; random rollouts at clock changes', () => {
		fc.assert(
			fc.property(smallRollouts(8), (document) => judge(readPlain(document))),
			{ numRuns: 40 }
		);
	});

	const rollout = rolloutOf({
		areas: [{ id: 'street', outside: true }, { id: 'hall' }],
		doors: [{ id: 'main', from: 'street', to: 'hall', exit: 'reader' }],
		doorGroups: [{ id: 'all', doors: ['main'] }],
		schedules: [
			{
				id: 'office',
				name: 'Office',
				week: {
					mon: ['08:00-17:00'],
					tue: ['08:00-17:00'],
					wed: ['08:00-17:00'],
					thu: ['08:00-17:00'],
					fri: ['08:00-17:00']
				},
				holidays: { public: 'closed', 'half-day': ['09:00-13:00'], fair: 'normal' }
			},
			{
				id: 'weekend',
				week: { fri: ['18:00-00:00'], sat: ['00:00-24:00'], sun: ['00:00-24:00'], mon: ['00:00-07:00'] }
			},
			{ id: 'summer', until: '2027-06-30' as never, week: { mon: ['22:00-06:00'] }, holidays: { public: 'closed' } }
		],
		holidays: {
			days: [
				{ date: '2027-12-24', kind: 'half-day' },
				{ date: '2027-12-25', name: 'Christmas Day', kind: 'public' },
				{ date: '2027-05-31', kind: 'public' },
				{ date: '2027-03-01', kind: 'fair' }
			] as never
		},
		people: [
			{ id: '00123', name: 'Ann', startsOn: '2027-06-06' as never, leavesOn: '2027-06-07' as never, department: 'A' }
		],
		accessProfiles: [{ id: 'staff', entries: [{ doorGroup: 'all', schedule: 'office' }] }],
		assignments: [
			{ id: 'a1', who: { departments: ['A'] }, accessProfile: 'staff', until: '2027-03-31' as never },
			{ id: 'a2', who: { people: ['00123'] }, accessProfile: 'staff', from: '2027-05-01' as never }
		],
		privacy: { templates: [{ person: '00123', enrolledOn: '2027-01-11' as never, storedOn: ['c1'] }] }
	});

	test('writes the week as every device takes it: 1970, by midnight, no UNTIL (V-SCH-03, V-SCH-04 case B)', () => {
		const [office, weekend] = openModelOf(rollout, madeAt).model.Schedule;
		expect(office?.Standard).toMatch(
			/DTSTART:19700101T080000\r\nDTEND:19700101T170000\r\nRRULE:FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR\r\n/
		);
		// 61 hours a week.
		const week = wallMinutes(weekend?.Standard ?? '', ICAL.Time.fromDateTimeString('1970-01-11T23:00:00')).filter(
			([from]) => from >= 4 * 1440
		);
		expect(week.reduce((sum, [from, to]) => sum + to - from, 0)).toBe(61 * 60);
		expect(`${office?.Standard}${weekend?.Standard}`).not.toMatch(/UNTIL|COUNT|TZID/);
	});

	test('shares special days by kind, closed with no range (V-SCH-08), and is exact where limits and nights meet', () => {
		const { model, report } = openModelOf(rollout, madeAt);
		const [office, , summer] = model.Schedule;
		expect(office?.SpecialDays).toEqual([
			{ GroupToken: 'public', TimeRange: [] },
			{ GroupToken: 'half-day', TimeRange: [{ From: '09:00:00', Until: '13:00:00' }] }
		]);
		expect(summer?.Standard).toContain('UNTIL=20270628T220000');
		expect(summer?.Standard).toContain('UNTIL=20270629T000000');
		const kinds = new Set(report.items.map(({ kind }) => kind));
		for (const kind of [
			'kind-normal',
			'kind-undecided',
			'overnight-split',
			'own-special-days',
			'validity-limits'
		] as const) {
			expect(kinds).toContain(kind);
		}
		// The night of the holiday of 31 May would have run into 1 June.
		const own = report.items.filter(({ kind, path }) => kind === 'own-special-days' && path === '$.schedules[2]');
		expect(own.flatMap(({ dates = [] }) => dates)).toContain('2027-06-01');
		judge(rollout);
	});

	test('ends a limit at the midnight after the last day (V-CRED-01), and copies a profile that is given twice', () => {
		const { model, report } = openModelOf(rollout, madeAt);
		expect(model.Credential).toEqual([
			{
				token: '00123',
				CredentialHolderReference: '00123',
				ValidFrom: '2027-06-06T00:00:00-05:00',
				ValidTo: '2027-06-08T00:00:00-05:00',
				CredentialAccessProfile: [
					{ AccessProfileToken: 'staff', ValidTo: '2027-04-01T00:00:00-05:00' },
					{ AccessProfileToken: 'staff.2', ValidFrom: '2027-05-01T00:00:00-05:00' }
				]
			}
		]);
		expect(
			model.AccessProfile.map(({ token, AccessPolicy }) => [token, AccessPolicy.map(({ Entity }) => Entity)])
		).toEqual([
			['staff', ['main', 'main.exit']],
			['staff.2', ['main', 'main.exit']]
		]);
		expect(report.capabilities).toMatchObject({
			MaxAccessProfiles: 2,
			ExtendedRecurrenceSupported: true,
			MaxCredentials: 1
		});
	});

	test('says of nobody that a finger is enrolled, and tells that this is left out', () => {
		const { model, report } = openModelOf(rollout, madeAt);
		expect(JSON.stringify(model)).not.toMatch(/finger|template|enrol|2027-01-11/i);
		expect(report.items.map(({ path }) => path)).toContain('$.privacy.templates');
		expect(report.items.map(({ kind }) => kind)).toContain('identifier-missing');
	});
});
