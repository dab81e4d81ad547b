import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { type LocalDate, localDate } from '../calendar/local-date';
import type { RolloutDocument } from '../document/schema';
import { retentionOn } from './retention';
import { lastWorkingDayAtOrBefore, weekdaysBut } from './working-days';

type Template = NonNullable<NonNullable<RolloutDocument['privacy']>['templates']>[number];

/** The one template of a site under these packs, on a day that changes no date. */
function reckon(regimes: string[], template: Partial<Template>, leavesOn: LocalDate | null = null) {
	const rollout = rolloutOf({
		people: [{ id: 'p', leavesOn }],
		privacy: {
			regimes,
			templates: [{ person: 'p', enrolledOn: localDate('2024-01-02'), storedOn: ['c1'], ...template }]
		}
	});
	const found = retentionOn(rollout, localDate('2024-03-01')).templates[0];
	if (found === undefined) throw new Error('no template was reckoned');
	return found;
}

const onWeekdays = weekdaysBut([]);

describe('Illinois, 740 ILCS 14/15(a)', () => {
	test('V-RET-01a: last use 15 March 2025, still authorized: 15 March 2028', () => {
		expect(reckon(['us-il'], { lastUsedOn: localDate('2025-03-15') })).toMatchObject({
			eraseBy: '2028-03-15',
			rule: 'us-il/three-years',
			trigger: 'last-use',
			triggerDate: '2025-03-15'
		});
	});

	test('V-RET-01b: last use 29 February 2024: 28 February 2027, the cautious side', () => {
		expect(reckon(['us-il'], { lastUsedOn: localDate('2024-02-29') }).eraseBy).toBe('2027-02-28');
	});

	test('V-RET-01c: left 31 March 2026, last use the day before: 31 March 2026 at once, whichever occurs first', () => {
		const found = reckon(['us-il'], { lastUsedOn: localDate('2026-03-30') }, localDate('2026-03-31'));
		expect(found).toMatchObject({ eraseBy: '2026-03-31', rule: 'us-il/purpose-ended', trigger: 'left' });
		expect(found.candidates.map(({ rule, eraseBy }) => `${rule} ${eraseBy}`)).toEqual([
			'us-il/purpose-ended 2026-03-31',
			'us-il/three-years 2029-03-30'
		]);
	});

	test('V-RET-01d: each use starts the three years anew', () => {
		expect(reckon(['us-il'], { lastUsedOn: localDate('2026-06-01') }).eraseBy).toBe('2029-06-01');
		expect(reckon(['us-il'], { lastUsedOn: localDate('2026-06-02') }).eraseBy).toBe('2029-06-02');
	});
});

describe('Texas, Business and Commerce Code 503.001(c)(3), (c-2)', () => {
	test.each([
		['V-RET-02a', '2026-07-14', '2027-07-14'],
		['V-RET-02b: no 29 February in 2029', '2028-02-29', '2029-02-28'],
		['V-RET-02c: a Sunday, not moved', '2027-12-31', '2028-12-31']
	])('%s: left %s, latest %s', (_, left, latest) => {
		expect(reckon(['us-tx'], {}, localDate(left))).toMatchObject({ eraseBy: latest, rule: 'us-tx/one-year' });
	});
});

describe('Colorado, C.R.S. 6-1-1314 (figures from memory)', () => {
	test.each([
		['V-RET-03a', '2026-02-28', '2028-02-28'],
		['V-RET-03b', '2024-02-29', '2026-02-28']
	])('%s: last use %s, latest %s', (_, used, latest) => {
		expect(reckon(['us-co'], { lastUsedOn: localDate(used) })).toMatchObject({
			eraseBy: latest,
			rule: 'us-co/two-years'
		});
	});

	test('V-RET-03c, V-RET-03d: decided on 17 November 2027: 1 January 2028, so act on Friday 31 December', () => {
		const recent = { lastUsedOn: localDate('2027-11-01') };
		expect(reckon(['us-co'], { ...recent, unneededSince: localDate('2026-10-31') }).eraseBy).toBe('2026-12-15');
		const found = reckon(['us-co'], { ...recent, unneededSince: localDate('2027-11-17') });
		expect(found).toMatchObject({ eraseBy: '2028-01-01', rule: 'us-co/forty-five-days', trigger: 'unneeded' });
		expect(lastWorkingDayAtOrBefore(localDate('2028-01-01'), onWeekdays)).toBe('2027-12-31');
	});
});

test('V-RET-WA, RCW 19.375.020(4): without a period of the site there is no date, and a problem says so', () => {
	const people = [{ id: 'p', leavesOn: localDate('2027-02-01') }];
	const templates = [{ person: 'p', enrolledOn: localDate('2027-01-11'), storedOn: ['c1'] }];
	const on = localDate('2027-01-20');
	const without = retentionOn(rolloutOf({ people, privacy: { regimes: ['us-wa'], templates } }), on);
	expect(without.templates[0]).toMatchObject({ eraseBy: null, rule: null, state: 'kept', candidates: [] });
	expect(without.consentProblems.filter(({ person }) => person === null).map(({ code }) => code)).toEqual([
		'retention-period-missing'
	]);
	const siteRules = { daysAfterLeaving: 0 };
	const given = retentionOn(rolloutOf({ people, privacy: { regimes: ['us-wa'], templates, siteRules } }), on);
	expect(given.templates[0]).toMatchObject({ eraseBy: '2027-02-01', rule: 'site/days-after-leaving' });
	expect(given.consentProblems.filter(({ person }) => person === null)).toEqual([]);
});

test('V-DATE-03: a maximum on Sunday 28 February 2027 stays there; people act on Friday 26 February', () => {
	expect(lastWorkingDayAtOrBefore(localDate('2027-02-28'), onWeekdays)).toBe('2027-02-26');
});
