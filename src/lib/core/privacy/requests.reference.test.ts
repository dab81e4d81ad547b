import { describe, expect, test } from 'vitest';
import { smallSite } from '../../../../tests/support/small-site';
import { readRolloutValue } from '../answers/support/read-rollout';
import { localDate } from '../calendar/local-date';
import { requestsOn } from './requests';

// Dates by hand from Regulation (EEC, Euratom) 1182/71, article 3, and from the corresponding date rule; the ids are those of
// the facts that this project is checked against.

type Written = Readonly<Record<string, unknown>>;

function standing(privacy: Written, request: Written, on: string, holidays: readonly string[] = []) {
	const days = holidays.map((date) => ({ date, name: 'Holiday', kind: 'public' }));
	const document = smallSite();
	const read = readRolloutValue({
		...document,
		holidays: { coveredUntil: '2030-12-31', days },
		privacy: { ...privacy, requests: [{ id: 'q1', person: '1001', kind: 'access', ...request }] }
	});
	if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'));
	const found = requestsOn(read.value.rollout, localDate(on))[0];
	if (!found) throw new Error('there is one request');
	return found;
}

const eu = { regimes: ['eu'] };

describe('European Union: one month, Regulation 1182/71', () => {
	test.each([
		['V-RET-04a', '2027-01-31', '2027-03-01', []],
		['V-RET-04c', '2027-05-31', '2027-06-30', []],
		['V-RET-04d', '2028-01-31', '2028-02-29', []],
		['V-DATE-05, France', '2026-11-25', '2026-12-28', ['2026-12-25']],
		['by hand: 30 December 2026, the month ends on Saturday 30 January', '2026-12-30', '2027-02-01', []]
	])('%s: received %s, due %s', (_, receivedOn, dueOn, holidays) => {
		expect(standing(eu, { receivedOn }, receivedOn, holidays)).toMatchObject({ dueOn, extendBy: dueOn });
	});

	test('V-RET-04b: extended in time it counts three months from receipt, to 30 April 2027', () => {
		const request = { receivedOn: '2027-01-31', extendedOn: '2027-03-01', extensionReason: 'Many systems' };
		expect(standing(eu, request, '2027-03-02')).toMatchObject({ isExtended: true, dueOn: '2027-04-30', state: 'open' });
	});

	test('an extension told a day late does not count', () => {
		const request = { receivedOn: '2027-01-31', extendedOn: '2027-03-02', extensionReason: 'Many systems' };
		const found = standing(eu, request, '2027-03-02');
		expect(found).toMatchObject({ isExtended: false, dueOn: '2027-03-01', state: 'overdue', daysLeft: -1 });
		expect(found.problems.map(({ code }) => code)).toContain('extension-late');
	});
});

test('V-DATE-05, England: both 25 and 28 December 2026 are holidays, so 29 December', () => {
	const found = standing({ regimes: ['uk'] }, { receivedOn: '2026-11-25' }, '2026-12-01', ['2026-12-25', '2026-12-28']);
	expect(found).toMatchObject({ dueOn: '2026-12-29', state: 'open' });
});

describe('where no law read here gives a date', () => {
	test('there is none until the site sets its days', () => {
		const found = standing({ regimes: ['us-il'] }, { receivedOn: '2027-01-31' }, '2027-02-01');
		expect(found).toMatchObject({ state: 'no-date', dueOn: null, dates: [] });
		expect(found.problems.map(({ code }) => code)).toEqual(['identity-unchecked', 'no-date']);
	});

	test('the days of the site count from the day after receipt, are not moved, and know no extension', () => {
		const privacy = { regimes: ['us-il'], office: { answerWithinDays: 45 } };
		const request = { receivedOn: '2027-01-31', extendedOn: '2027-02-10', extensionReason: 'Holidays' };
		const found = standing(privacy, request, '2027-03-18');
		expect(found).toMatchObject({ dueOn: '2027-03-17', state: 'overdue', isExtended: false });
		expect(found.problems.map(({ code }) => code)).toContain('extension-unknown');
	});
});

test('the strictest of several rules governs, and stricter days of the site give way to an extension by law', () => {
	const privacy = { regimes: ['eu', 'uk'], office: { answerWithinDays: 14 } };
	const first = standing(privacy, { receivedOn: '2027-03-01' }, '2027-03-09');
	expect(first).toMatchObject({ dueOn: '2027-03-15', state: 'due', daysLeft: 6 });
	expect(first.dates.map(({ pack }) => pack)).toEqual(['site', 'eu', 'uk']);
	const extended = standing(
		privacy,
		{ receivedOn: '2027-03-01', extendedOn: '2027-03-10', extensionReason: 'x' },
		'2027-03-20'
	);
	expect(extended).toMatchObject({ isExtended: true, dueOn: '2027-06-01' });
});

test('what is answered is done, and told where it was late or before it was known who asks', () => {
	const request = {
		receivedOn: '2027-01-31',
		answeredOn: '2027-03-02',
		answer: 'Sent',
		identityCheckedOn: '2027-03-03'
	};
	const found = standing(eu, request, '2027-04-01');
	expect(found).toMatchObject({ state: 'answered', daysLeft: null });
	expect(found.problems.map(({ code }) => code)).toEqual(['identity-unchecked', 'answered-late']);
	expect(standing(eu, request, '2027-03-01').state).toBe('due');
});
