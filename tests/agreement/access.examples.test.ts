import { describe, expect, it } from 'vitest';
import access from '../../src/lib/core/answers/access';
import check from '../../src/lib/core/answers/check';
import explain from '../../src/lib/core/answers/explain';
import { unwatched } from '../../src/lib/core/kernel/work';
import { AccessOracle } from '../oracles/access-oracle';
import type { PlainDocument } from '../oracles/plain-rollout';
import { everyDay, oneDoor } from '../support/one-door';
import { accessDisagreement, checkDisagreement, explainDisagreementAt, rolloutOf } from './agree';

/**
 * Documents on which the core once differed from the evaluation minute by minute, or that a reading of the document
 * format decides. What is expected is written down here; that the two agree is asked as well.
 */

async function spansOf(document: PlainDocument, from = document.horizon.from, until = document.horizon.until) {
	const days = (Date.parse(until) - Date.parse(from)) / 86_400_000;
	const after = (Date.parse(from) - Date.parse(document.horizon.from)) / 86_400_000;
	expect(await accessDisagreement(document, 'p', after, days)).toBeUndefined();
	const answer = await access.run(
		rolloutOf(document),
		{ person: 'p', from: from as never, until: until as never },
		unwatched
	);
	if (!answer.ok) throw new Error('refused');
	return answer.value.spans.map((span) => `${span.from} ${span.to}`);
}

async function codesOf(document: PlainDocument) {
	expect(await checkDisagreement(document)).toBeUndefined();
	const answer = await check.run(rolloutOf(document), {}, unwatched);
	if (!answer.ok) throw new Error('refused');
	return answer.value.findings.map(({ code, dates }) => [code, ...dates].join(' '));
}

// St. John's turned 00:01 on 2010-11-07 back to 23:01 on 2010-11-06: the date was the 7th for a minute, the 6th for
// 59 more, and then the 7th again.
const stJohns = { timeZone: 'America/St_Johns', from: '2010-11-06', until: '2010-11-08' };

describe('a clock that is turned back past midnight', () => {
	it('shows a date on which the schedule is not yet valid: closed again for that time', async () => {
		const document = oneDoor(stJohns, { from: '2010-11-07', week: { sun: ['00:00-24:00'] } });
		expect(await spansOf(document)).toEqual([
			'2010-11-07T00:00:00-02:30 2010-11-06T23:01:00-03:30',
			'2010-11-07T00:00:00-03:30 2010-11-08T00:00:00-03:30'
		]);
	});

	it('leaves a schedule open that is open all day on both dates', async () => {
		const document = oneDoor(stJohns, { week: everyDay('00:00-24:00') });
		expect(await spansOf(document)).toEqual(['2010-11-06T00:00:00-02:30 2010-11-09T00:00:00-03:30']);
	});

	it('opens by the stretch of the date that has begun once, also while it shows the date before', async () => {
		const document = oneDoor(stJohns, { week: { sun: ['00:00-06:00'] } });
		const oracle = new AccessOracle(document);
		const again = oracle.time.minuteOf('2010-11-07', '00:00') + 30;
		expect(oracle.time.textOf(again)).toBe('2010-11-06T23:30:00-03:30');
		expect(oracle.openMinutes({ id: 's', week: { sun: ['00:00-06:00'] } })[again]).toBe(1);
		expect(await spansOf(document)).toEqual(['2010-11-07T00:00:00-02:30 2010-11-07T06:00:00-03:30']);
		expect(await explainDisagreementAt(oracle, 'p', 'd', '2010-11-07', '00:00')).toBeUndefined();
	});

	it('does not bring back a night that the next date has cut', async () => {
		const document = oneDoor(
			stJohns,
			{ week: { sat: ['22:00-06:00'] }, holidays: { closed: 'closed' } },
			{ holidays: { coveredUntil: stJohns.until, days: [{ date: '2010-11-07', kind: 'closed' }] } }
		);
		expect(await spansOf(document)).toEqual(['2010-11-06T22:00:00-02:30 2010-11-07T00:00:00-02:30']);
	});

	it('is not yet in the horizon while it shows the date before', async () => {
		const document = oneDoor(
			{ ...stJohns, from: '2010-11-07' },
			{ week: everyDay('00:00-24:00') },
			{
				areas: [{ id: 'street', outside: true }, { id: 'yard' }, { id: 'hall' }],
				doors: [{ id: 'd', from: 'yard', to: 'hall' }],
				people: [{ id: 'p', leavesOn: '2010-11-06' }]
			}
		);
		// Otherwise the door could be opened then, and nobody could get to it.
		expect(await codesOf(document)).not.toContain('no-route');
	});

	it('employs by dates: who left the day before the horizon is not employed in it', async () => {
		const document = oneDoor(
			{ ...stJohns, from: '2010-11-07' },
			{ from: '2010-11-07', week: everyDay('00:00-24:00') },
			{ people: [{ id: 'p', leavesOn: '2010-11-06' }] }
		);
		expect(await codesOf(document)).not.toContain('person-without-access');
	});
});

describe('a clock that skips the end of a date', () => {
	// Nuuk skipped 23:00 to 24:00 on 2024-03-30.
	const nuuk = { timeZone: 'America/Nuuk', from: '2024-03-29', until: '2024-04-01' };

	it('ends a stretch after midnight, where the next date cuts it', async () => {
		const hours = { week: { sat: ['20:00-23:30'] } };
		expect(await spansOf(oneDoor(nuuk, hours))).toEqual(['2024-03-30T20:00:00-02:00 2024-03-31T00:30:00-01:00']);
		expect(await spansOf(oneDoor(nuuk, { ...hours, until: '2024-03-30' }))).toEqual([
			'2024-03-30T20:00:00-02:00 2024-03-31T00:00:00-01:00'
		]);
	});

	it('is noted for a stretch that is written to end in what is skipped, though the next date cuts it there', async () => {
		const cut = oneDoor(nuuk, { week: { sat: ['20:00-23:30'] }, until: '2024-03-30' });
		expect(await codesOf(cut)).toContain('clock-change 2024-03-30');
	});

	it('ends the night before on the second date after it, which cuts it as well', async () => {
		const document = oneDoor(nuuk, { until: '2024-03-30', week: { fri: ['23:01-23:01'] } });
		expect(await spansOf(document)).toEqual(['2024-03-29T23:01:00-02:00 2024-03-31T00:00:00-01:00']);
	});
});

describe('a date that a zone leaves out', () => {
	// Apia had no 2011-12-30.
	const apia = { timeZone: 'Pacific/Apia', from: '2011-12-28', until: '2012-01-02' };
	const night = { week: { thu: ['22:00-06:00'] }, holidays: { closed: 'closed' as const } };

	it('lets the night before end at the same time on the date after', async () => {
		expect(await spansOf(oneDoor(apia, night))).toEqual(['2011-12-29T22:00:00-10:00 2011-12-31T06:00:00+14:00']);
	});

	it.each(['2011-12-30', '2011-12-31'])('cuts that night where %s is closed', async (date) => {
		const document = oneDoor(apia, night, { holidays: { coveredUntil: apia.until, days: [{ date, kind: 'closed' }] } });
		expect(await spansOf(document)).toEqual(['2011-12-29T22:00:00-10:00 2011-12-31T00:00:00+14:00']);
	});

	it('has no stretches and no shifts of its own', async () => {
		const document = oneDoor(
			apia,
			{ week: { fri: ['08:00-17:00'] } },
			{
				people: [{ id: 'p', shiftPattern: 'daily', workAreas: ['hall'] }],
				shiftPatterns: [{ id: 'daily', anchor: '2011-12-28', cycleDays: 1, shifts: [{ day: 0, at: '08:00-17:00' }] }]
			}
		);
		expect(await spansOf(document)).toEqual([]);
		expect(await codesOf(document)).toContain(
			'shift-not-covered 2011-12-28 2011-12-29 2011-12-31 2012-01-01 2012-01-02'
		);
	});
});

describe('readings that the document format leaves open', () => {
	const chicago = { timeZone: 'America/Chicago', from: '2027-03-08', until: '2027-03-21' };

	it('a wave without a go-live is checked from the start of the horizon', async () => {
		const document = oneDoor(
			chicago,
			{ week: {} },
			{
				people: [{ id: 'p', shiftPattern: 'once', workAreas: ['hall'], wave: 'w' }],
				shiftPatterns: [{ id: 'once', anchor: '2027-03-08', cycleDays: 14, shifts: [{ day: 0, at: '08:00-12:00' }] }],
				enrollment: { waves: [{ id: 'w' }] }
			}
		);
		expect(await codesOf(document)).toContain('shift-not-covered 2027-03-08');
	});

	it('a shift that is empty because the clock skips it is no shift', async () => {
		const document = oneDoor(
			chicago,
			{ week: {} },
			{
				site: { name: 'One door', timeZone: chicago.timeZone, arriveEarlyMinutes: 15 },
				people: [{ id: 'p', shiftPattern: 'gap', workAreas: ['hall'] }],
				// 02:30 is read as 03:30, after its end.
				shiftPatterns: [{ id: 'gap', anchor: '2027-03-14', cycleDays: 14, shifts: [{ day: 0, at: '02:30-03:00' }] }]
			}
		);
		expect((await codesOf(document)).filter((code) => code.startsWith('shift-not-covered'))).toEqual([]);
	});

	it('a stretch that the next date cuts does not end in the skipped time that is written', async () => {
		const days = [{ date: '2027-03-14', kind: 'closed' }];
		const hours = { week: { sat: ['22:00-02:30'] }, holidays: { closed: 'closed' as const } };
		expect(await codesOf(oneDoor(chicago, hours))).toContain('clock-change 2027-03-14');
		const cut = oneDoor(chicago, hours, { holidays: { coveredUntil: chicago.until, days } });
		expect((await codesOf(cut)).filter((code) => code.startsWith('clock-change'))).toEqual([]);
	});

	it('early arrival before the first day employed is not covered', async () => {
		const document = oneDoor(
			chicago,
			{ week: everyDay('00:00-24:00') },
			{
				site: { name: 'One door', timeZone: chicago.timeZone, arriveEarlyMinutes: 15 },
				people: [{ id: 'p', shiftPattern: 'night', workAreas: ['hall'], startsOn: '2027-03-10' }],
				shiftPatterns: [{ id: 'night', anchor: '2027-03-10', cycleDays: 2, shifts: [{ day: 0, at: '00:00-08:00' }] }]
			}
		);
		expect(await codesOf(document)).toContain('shift-not-covered 2027-03-10');
	});

	it('a reason that holds for two schedules of an assignment is told once', async () => {
		const document = oneDoor(
			chicago,
			{ week: {} },
			{
				schedules: ['s', 't'].map((id) => ({ id, week: everyDay('08:00-12:00') })),
				accessProfiles: [
					{
						id: 'f',
						entries: [
							{ doorGroup: 'g', schedule: 's' },
							{ doorGroup: 'g', schedule: 't' }
						]
					}
				],
				assignments: [{ id: 'a', who: { everyone: true }, accessProfile: 'f', from: '2027-03-10' }]
			}
		);
		const reasonsAt = async (at: string) => {
			const answer = await explain.run(rolloutOf(document), { person: 'p', door: 'd', at: at as never }, unwatched);
			return answer.ok ? answer.value.blockedBy.map(({ reason }) => reason) : [];
		};
		expect(await reasonsAt('2027-03-09T09:00')).toEqual(['assignment-not-in-force']);
		expect(await reasonsAt('2027-03-10T13:00')).toEqual(['schedule-closed', 'schedule-closed']);
	});

	it('when allowed, the next time allowed is the time asked for, after the horizon too', async () => {
		const document = oneDoor(chicago, { week: everyDay('08:00-12:00') });
		const question = { person: 'p', door: 'd', at: '2027-03-22T09:00' as never };
		const answer = await explain.run(rolloutOf(document), question, unwatched);
		expect(answer.ok && answer.value.nextAllowed).toBe('2027-03-22T09:00:00-05:00');
		const later = await explain.run(rolloutOf(document), { ...question, at: '2027-03-22T07:00' as never }, unwatched);
		expect(later.ok && later.value.nextAllowed).toBeNull();
	});
});
