import { expect, test } from 'vitest';
import { localDate } from '../calendar/local-date';
import { candidatesOf, ruleTriggersOf, triggerDates } from './candidates';
import { noConsent } from './consent-state';
import { type RetentionRule, type Trigger, definePack } from './define-pack';

const day = localDate('2027-03-01');

function rule(id: string, ...triggers: Trigger[]): RetentionRule {
	return { id, title: id, triggers, period: { unit: 'none' }, statute: 'S', section: '1', claims: [], cautions: [] };
}

function pack(id: string, row: number, ...rules: RetentionRule[]) {
	return definePack({
		id,
		row,
		title: id,
		covers: '',
		rules,
		sitePeriodRequired: null,
		response: null,
		disclosure: null,
		cautions: [],
		source: '',
		lastReviewed: day
	});
}

function namesOf(...packs: ReturnType<typeof pack>[]): string[] {
	const dates = { left: day, withdrew: day, 'last-use': day, unneeded: day };
	return candidatesOf(ruleTriggersOf(packs), dates).map(({ rule, trigger }) => `${rule} ${trigger}`);
}

test('on a tie the row goes before the place of the rule, that before the trigger, that before the pack', () => {
	const b = pack('b', 2, rule('one', 'unneeded'), rule('two', 'left'));
	const c = pack('c', 2, rule('one', 'unneeded', 'withdrew'));
	const a = pack('a', 3, rule('one', 'left'));
	const z = pack('z', 1, rule('one', 'last-use'));
	expect(namesOf(a, c, b, z)).toEqual([
		'z/one last-use',
		'c/one withdrew',
		'b/one unneeded',
		'c/one unneeded',
		'b/two left',
		'a/one left'
	]);
});

test('a trigger without its date gives no candidate', () => {
	const dates = triggerDates(
		{ leavesOn: null },
		{ person: 'p', enrolledOn: day, lastUsedOn: null, unneededSince: null, storedOn: ['c1'], erasures: [] },
		noConsent
	);
	expect(dates).toEqual({ left: null, withdrew: null, 'last-use': day, unneeded: null });
	const all = pack('a', 1, rule('one', 'left', 'withdrew', 'last-use', 'unneeded'));
	expect(candidatesOf(ruleTriggersOf([all]), dates).map(({ trigger }) => trigger)).toEqual(['last-use']);
});
