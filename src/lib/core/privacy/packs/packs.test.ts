import { describe, expect, test } from 'vitest';
import { standingOf, triggers } from '../define-pack';
import { packsOf } from '../packs-of';
import { ruleIds, rulePacks } from '.';

test('the packs, and their rules in the order that decides ties', () => {
	expect([...rulePacks.keys()]).toEqual(['ca-qc', 'eu', 'fr', 'uk', 'us-co', 'us-il', 'us-tx', 'us-wa']);
	expect(ruleIds).toEqual([
		'us-il/purpose-ended',
		'us-il/three-years',
		'us-tx/one-year',
		'us-co/purpose-ended',
		'us-co/two-years',
		'us-co/forty-five-days',
		'eu/purpose-ended',
		'uk/purpose-ended',
		'fr/authorization-ended',
		'ca-qc/purpose-ended',
		'site/days-after-leaving',
		'site/days-unused'
	]);
});

describe.each([...rulePacks])('%s', (_, pack) => {
	test('says what it covers, where it is from and when it was last read', () => {
		for (const text of [pack.title, pack.covers, pack.source]) expect(text.length).toBeGreaterThan(5);
		expect(pack.lastReviewed >= '2026-11-25').toBe(true);
		expect(pack.cautions.length).toBeGreaterThan(0);
	});

	test('either has rules or says why the site must give a period', () => {
		expect(pack.rules.length > 0).toBe(pack.sitePeriodRequired === null);
	});

	test('each rule has a statute, a section and a claim about each of its triggers', () => {
		for (const rule of pack.rules) {
			for (const text of [rule.title, rule.statute, rule.section]) expect(text).not.toBe('');
			expect(rule.triggers.length).toBeGreaterThan(0);
			expect(rule.triggers).toEqual(triggers.filter((trigger) => rule.triggers.includes(trigger)));
			for (const trigger of rule.triggers) {
				expect(rule.claims.some((claim) => (claim.trigger ?? trigger) === trigger)).toBe(true);
			}
		}
	});
});

test.each([
	['us-il', 'purpose-ended', 'left', 'assumption'],
	['us-il', 'three-years', 'last-use', 'settled'],
	['us-tx', 'one-year', 'left', 'settled'],
	['us-tx', 'one-year', 'withdrew', 'assumption'],
	['us-co', 'two-years', 'last-use', 'from memory'],
	['us-co', 'forty-five-days', 'unneeded', 'from memory'],
	['eu', 'purpose-ended', 'left', 'assumption'],
	['uk', 'purpose-ended', 'withdrew', 'assumption'],
	['fr', 'authorization-ended', 'left', 'from memory'],
	['ca-qc', 'purpose-ended', 'unneeded', 'settled']
] as const)('%s/%s for %s stands as %s', (packId, ruleId, trigger, expected) => {
	const rule = rulePacks.get(packId)?.rules.find(({ id }) => id === ruleId);
	if (rule === undefined) throw new Error(`${packId} has no rule ${ruleId}`);
	expect(standingOf(rule, trigger)).toBe(expected);
});

test('an id that is no rule pack is a mistake of the caller, since reading refuses it', () => {
	expect(() => packsOf({ regimes: ['us-xx'], siteRules: { daysAfterLeaving: null, daysUnused: null } })).toThrow(
		'"us-xx" is no rule pack'
	);
});
