import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { type LocalDate, localDate } from '../calendar/local-date';
import type { RolloutDocument } from '../document/schema';
import { retentionOn } from './retention';

type Privacy = NonNullable<RolloutDocument['privacy']>;
type Template = NonNullable<Privacy['templates']>[number];
type Consent = NonNullable<Privacy['consents']>[number];

const day = localDate;
const template = (parts: Partial<Template> = {}): Template => ({
	person: 'p',
	enrolledOn: day('2027-01-11'),
	storedOn: ['c1', 'c2'],
	...parts
});
const entry = (decision: Consent['decision'], on: string, notice = 'n1'): Consent => ({
	person: 'p',
	notice,
	decision,
	on: day(on)
});

function on(date: string, privacy: Privacy, leavesOn: LocalDate | null = null) {
	const rollout = rolloutOf({
		people: [
			{ id: 'p', name: 'Ada Example', leavesOn },
			{ id: 'q', leavesOn }
		],
		privacy: { notices: [{ id: 'n1' }], ...privacy }
	});
	return retentionOn(rollout, day(date));
}

function first(date: string, privacy: Privacy, leavesOn: LocalDate | null = null) {
	const found = on(date, privacy, leavesOn).templates[0];
	if (found === undefined) throw new Error('no template was reckoned');
	return found;
}

function codes(date: string, privacy: Privacy, leavesOn: LocalDate | null = null): string[] {
	return on(date, privacy, leavesOn).consentProblems.map(({ code, person }) => `${code} ${person ?? 'site'}`);
}

describe('state', () => {
	const left = day('2027-06-01');
	const privacy: Privacy = { regimes: ['eu'], templates: [template()] };

	test.each([
		['2027-05-01', 'kept'],
		['2027-05-02', 'due'],
		['2027-06-01', 'due'],
		['2027-06-02', 'overdue']
	])('to be erased by 1 June: on %s it is %s', (date, state) => {
		expect(first(date, privacy, left).state).toBe(state);
	});

	test('erased only when every place is, by the day asked about', () => {
		const erasures = [
			{ from: 'c1', on: day('2027-06-02') },
			{ from: 'c2', on: day('2027-06-10') }
		];
		const both = { ...privacy, templates: [template({ erasures })] };
		expect(first('2027-06-09', both, left)).toMatchObject({ state: 'overdue', left: ['c2'] });
		expect(first('2027-06-10', both, left)).toMatchObject({ state: 'erased', left: [] });
	});

	test('an erasure before the enrollment empties nothing, one on the day of it does', () => {
		const early = [template({ storedOn: ['c1'], erasures: [{ from: 'c1', on: day('2027-01-10') }] })];
		expect(first('2027-02-01', { regimes: ['eu'], templates: early })).toMatchObject({ state: 'kept', left: ['c1'] });
		expect(codes('2027-02-01', { templates: early })).toContain('erased-before-enrolled p');
		const sameDay = [template({ storedOn: ['c1'], erasures: [{ from: 'c1', on: day('2027-01-11') }] })];
		expect(first('2027-02-01', { regimes: ['eu'], templates: sameDay }).state).toBe('erased');
	});

	test('a place listed twice is named once; an erasure of a place that never held it changes nothing', () => {
		const erasures = [{ from: 'laptop', on: day('2027-02-01') }];
		const found = first('2027-03-01', { templates: [template({ storedOn: ['c2', 'c1', 'c2'], erasures })] });
		expect(found.left).toEqual(['c2', 'c1']);
	});

	test.each([
		['2027-06-04', 'overdue'],
		['2027-06-05', 'held'],
		['2027-06-20', 'held'],
		['2027-06-21', 'overdue']
	])('a hold from 5 to 20 June covers both ends: on %s it is %s', (date, state) => {
		const holds = [{ person: 'p', from: day('2027-06-05'), until: day('2027-06-20') }];
		expect(first(date, { ...privacy, holds }, left)).toMatchObject({ state, eraseBy: '2027-06-01' });
	});

	test('a hold without ends has no limit; one of somebody else holds nothing; nothing holds what is erased', () => {
		expect(first('2027-06-30', { ...privacy, holds: [{ person: 'p' }] }, left).state).toBe('held');
		expect(first('2027-06-30', { ...privacy, holds: [{ person: 'q' }] }, left).state).toBe('overdue');
		const erasures = ['c1', 'c2'].map((from) => ({ from, on: day('2027-06-01') }));
		const gone = { ...privacy, templates: [template({ erasures })], holds: [{ person: 'p' }] };
		expect(first('2027-06-30', gone, left).state).toBe('erased');
	});

	test('without a candidate: nulls, kept, unless held or erased', () => {
		expect(first('2027-06-30', privacy)).toMatchObject({
			state: 'kept',
			eraseBy: null,
			rule: null,
			trigger: null,
			triggerDate: null,
			candidates: []
		});
		expect(first('2027-06-30', { ...privacy, holds: [{ person: 'p' }] }).state).toBe('held');
	});
});

describe('triggers', () => {
	test('a planned leaving counts as a past one does', () => {
		expect(first('2027-02-01', { regimes: ['us-il'], templates: [template()] }, day('2029-12-31'))).toMatchObject({
			eraseBy: '2029-12-31',
			trigger: 'left'
		});
	});

	test('the latest entry decides: given again after a withdrawal is no trigger', () => {
		const consents = [entry('withdrawn', '2027-03-01'), entry('given', '2027-03-05')];
		expect(first('2027-04-01', { regimes: ['eu'], templates: [template()], consents }).candidates).toEqual([]);
	});

	test('entries of one date count in the order of the list', () => {
		const both = [entry('withdrawn', '2027-03-01'), entry('given', '2027-03-01')];
		const privacy: Privacy = { regimes: ['eu'], templates: [template()] };
		expect(first('2027-04-01', { ...privacy, consents: both }).trigger).toBe(null);
		expect(first('2027-04-01', { ...privacy, consents: both.toReversed() }).trigger).toBe('withdrew');
	});

	test('declined counts as withdrawn', () => {
		const consents = [entry('declined', '2027-03-01')];
		expect(first('2027-04-01', { regimes: ['us-tx'], templates: [template()], consents })).toMatchObject({
			rule: 'us-tx/one-year',
			trigger: 'withdrew',
			triggerDate: '2027-03-01',
			eraseBy: '2028-03-01'
		});
	});

	test('an entry dated after the day is ignored, and told', () => {
		const consents = [entry('given', '2027-01-05'), entry('withdrawn', '2027-03-01')];
		const privacy: Privacy = { regimes: ['eu'], templates: [template()], consents };
		expect(first('2027-02-28', privacy).trigger).toBe(null);
		expect(codes('2027-02-28', privacy)).toEqual(['consent-in-future p']);
		expect(first('2027-03-01', privacy).trigger).toBe('withdrew');
		expect(codes('2027-03-01', privacy)).toEqual(['consent-withdrawn p']);
	});

	test('last use is the enrollment until there is one', () => {
		const unused = first('2027-02-01', { siteRules: { daysUnused: 180 }, templates: [template()] });
		expect(unused).toMatchObject({ triggerDate: '2027-01-11', eraseBy: '2027-07-10', rule: 'site/days-unused' });
		const used = template({ lastUsedOn: day('2027-02-01') });
		expect(first('2027-02-01', { siteRules: { daysUnused: 180 }, templates: [used] }).triggerDate).toBe('2027-02-01');
	});
});

describe('the governing candidate', () => {
	test('the earliest date, whatever the rule', () => {
		const privacy: Privacy = { regimes: ['us-tx'], siteRules: { daysAfterLeaving: 7 }, templates: [template()] };
		const found = first('2027-02-01', privacy, day('2027-06-01'));
		expect(found).toMatchObject({ rule: 'site/days-after-leaving', eraseBy: '2027-06-08' });
		expect(found.candidates.map(({ rule }) => rule)).toEqual(['site/days-after-leaving', 'us-tx/one-year']);
	});

	test('on a tie the first rule of the table, then the first trigger, then eu before uk', () => {
		const left = day('2027-06-01');
		const consents = [entry('withdrawn', '2027-06-01')];
		const templates = [template({ unneededSince: left })];
		const all: Privacy = {
			regimes: ['ca-qc', 'fr', 'uk', 'eu', 'us-co', 'us-il'],
			siteRules: { daysAfterLeaving: 0 },
			consents,
			templates
		};
		expect(
			first('2027-06-01', all, left)
				.candidates.filter(({ eraseBy }) => eraseBy === left)
				.map(({ rule, trigger }) => `${rule} ${trigger}`)
		).toEqual([
			'us-il/purpose-ended left',
			'us-il/purpose-ended withdrew',
			'us-co/purpose-ended left',
			'us-co/purpose-ended withdrew',
			'eu/purpose-ended left',
			'uk/purpose-ended left',
			'eu/purpose-ended withdrew',
			'uk/purpose-ended withdrew',
			'eu/purpose-ended unneeded',
			'uk/purpose-ended unneeded',
			'fr/authorization-ended left',
			'fr/authorization-ended withdrew',
			'ca-qc/purpose-ended left',
			'ca-qc/purpose-ended withdrew',
			'ca-qc/purpose-ended unneeded',
			'site/days-after-leaving left'
		]);
	});

	test('a pack listed twice applies once', () => {
		const found = first('2027-02-01', { regimes: ['eu', 'eu'], templates: [template()] }, day('2027-06-01'));
		expect(found.candidates).toHaveLength(1);
	});

	test('each candidate names its source', () => {
		const privacy: Privacy = { regimes: ['us-il'], siteRules: { daysUnused: 9 }, templates: [template()] };
		expect(first('2027-02-01', privacy).candidates.map(({ source }) => source)).toEqual([
			"The site's own rule",
			'740 ILCS 14/15(a), within 3 years of the last interaction'
		]);
	});
});

describe('problems of consent', () => {
	const given = entry('given', '2027-01-05');

	test('none for a person without a template, or whose templates are all erased', () => {
		expect(codes('2027-06-01', { consents: [entry('withdrawn', '2027-02-01')] }, day('2027-03-01'))).toEqual([]);
		const erasures = ['c1', 'c2'].map((from) => ({ from, on: day('2027-05-01') }));
		expect(codes('2027-06-01', { templates: [template({ erasures })] }, day('2027-03-01'))).toEqual([]);
		expect(codes('2027-04-30', { templates: [template({ erasures })] }, day('2027-03-01'))).toEqual([
			'consent-missing p',
			'leaver-template-left p'
		]);
	});

	test('missing: no entry given; a refusal is told beside it', () => {
		expect(codes('2027-02-01', { templates: [template()] })).toEqual(['consent-missing p']);
		expect(codes('2027-02-01', { templates: [template()], consents: [entry('declined', '2027-01-05')] })).toEqual([
			'consent-missing p',
			'consent-withdrawn p'
		]);
	});

	test('after enrollment: the first one given counts, on the day itself is in time', () => {
		const late = (date: string) => codes('2027-03-01', { templates: [template()], consents: [entry('given', date)] });
		expect(late('2027-01-11')).toEqual([]);
		expect(late('2027-01-12')).toEqual(['consent-after-enrollment p']);
		const renewed = [entry('given', '2027-02-01'), given];
		expect(codes('2027-03-01', { templates: [template()], consents: renewed })).toEqual([]);
	});

	test('after enrollment: an earlier template that is erased is left out', () => {
		const earlier = template({
			enrolledOn: day('2025-01-01'),
			storedOn: ['c1'],
			erasures: [{ from: 'c1', on: day('2025-06-01') }]
		});
		expect(codes('2027-03-01', { templates: [earlier, template()], consents: [given] })).toEqual([]);
	});

	test('the leaver is told from the day after the last one', () => {
		const privacy = { templates: [template()], consents: [given] };
		expect(codes('2027-06-01', privacy, day('2027-06-01'))).toEqual([]);
		expect(codes('2027-06-02', privacy, day('2027-06-01'))).toEqual(['leaver-template-left p']);
	});

	test('each problem says who, and gives its dates', () => {
		const consents = [entry('given', '2027-01-20'), entry('withdrawn', '2027-02-01'), entry('given', '2027-09-01')];
		const found = on('2027-03-01', { templates: [template()], consents }).consentProblems;
		expect(found.map(({ code, dates }) => [code, ...dates])).toEqual([
			['consent-after-enrollment', '2027-01-11', '2027-01-20'],
			['consent-withdrawn', '2027-02-01'],
			['consent-in-future', '2027-09-01']
		]);
		for (const { message } of found) expect(message).toContain('Ada Example (p)');
	});

	test('a missing period of the site is told once, last, with or without templates', () => {
		const privacy: Privacy = { regimes: ['us-wa', 'eu', 'us-wa'] };
		expect(codes('2027-03-01', privacy)).toEqual(['retention-period-missing site']);
		expect(codes('2027-03-01', { ...privacy, siteRules: { daysUnused: 5 }, templates: [template()] })).toEqual([
			'consent-missing p',
			'retention-period-missing site'
		]);
		expect(codes('2027-03-01', { ...privacy, siteRules: { daysAfterLeaving: 0 } })).toEqual([]);
	});
});

describe('outdated notices', () => {
	const notice = (id: string, replaces: string | null, publishedOn: string | null, needsFreshConsent = false) => ({
		id,
		replaces,
		publishedOn: publishedOn === null ? null : day(publishedOn),
		needsFreshConsent
	});
	const outdated = (notices: Privacy['notices'], consents: Consent[], date = '2027-06-01') =>
		codes(date, { notices, consents, templates: [template()] });
	const given = entry('given', '2027-01-05');

	test('a notice that needs fresh consent and is published by the day', () => {
		const notices = [notice('n1', null, '2026-12-01'), notice('n2', 'n1', '2027-06-01', true)];
		expect(outdated(notices, [given], '2027-05-31')).toEqual([]);
		expect(outdated(notices, [given], '2027-06-01')).toEqual(['consent-notice-outdated p']);
	});

	test('one that only corrects wording is none', () => {
		expect(outdated([notice('n1', null, null), notice('n2', 'n1', '2027-02-01')], [given])).toEqual([]);
	});

	test('through a chain, over notices that are not published themselves', () => {
		const chain = [notice('n1', null, '2026-12-01'), notice('n2', 'n1', null), notice('n3', 'n2', '2027-02-01', true)];
		expect(outdated(chain, [given])).toEqual(['consent-notice-outdated p']);
		expect(outdated(chain, [entry('given', '2027-01-05', 'n2')])).toEqual(['consent-notice-outdated p']);
		expect(outdated(chain, [given, entry('given', '2027-02-02', 'n3')])).toEqual([]);
	});

	test('one that needs fresh consent and was itself followed by a smaller one still counts', () => {
		const chain = [
			notice('n1', null, '2026-12-01'),
			notice('n2', 'n1', '2027-02-01', true),
			notice('n3', 'n2', '2027-03-01')
		];
		expect(outdated(chain, [given])).toEqual(['consent-notice-outdated p']);
	});

	test('without a date it is not published', () => {
		expect(outdated([notice('n1', null, null), notice('n2', 'n1', null, true)], [given])).toEqual([]);
	});

	test('a withdrawal is told alone', () => {
		const notices = [notice('n1', null, '2026-12-01'), notice('n2', 'n1', '2027-02-01', true)];
		expect(outdated(notices, [given, entry('withdrawn', '2027-03-01')])).toEqual(['consent-withdrawn p']);
	});

	test('notices that replace each other in a circle end the search', () => {
		const circle = [notice('n1', 'n3', '2026-12-01', true), notice('n2', 'n1', null), notice('n3', 'n2', null)];
		expect(outdated(circle, [given])).toEqual([]);
		expect(outdated(circle, [entry('given', '2027-01-05', 'n2')])).toEqual(['consent-notice-outdated p']);
	});
});
