import { describe, expect, test } from 'vitest';
import { localDate } from '../calendar/local-date';
import { statutoryHolidays } from '../calendar/statutory-holidays';
import { rulePacks } from './packs';
import { responseDeadline } from './response-deadline';
import { weekdaysBut } from './working-days';

function workingDaysOf(country: string, region: string | null = null) {
	const place = { country, region, holidayArea: null };
	const days = statutoryHolidays(place, localDate('2026-01-01'), localDate('2028-12-31'));
	return weekdaysBut(days.map(({ date }) => date));
}

const workingDays = {
	eu: workingDaysOf('DE'),
	fr: workingDaysOf('FR'),
	uk: workingDaysOf('GB', 'ENG')
};

function deadline(pack: keyof typeof workingDays, receivedOn: string) {
	const rule = rulePacks.get(pack)?.response;
	if (!rule) throw new Error(`${pack} has no rule for answers`);
	return responseDeadline(rule, localDate(receivedOn), workingDays[pack]);
}

describe('Regulation (EEC, Euratom) 1182/71, article 3, with Regulation (EU) 2016/679, article 12(3)', () => {
	test('V-RET-04a, V-DATE-03: received 31 January 2027: 28 February is a Sunday, so 1 March', () => {
		expect(deadline('eu', '2027-01-31')).toMatchObject({ endsOn: '2027-02-28', dueOn: '2027-03-01' });
	});

	test('V-RET-04b: extended, 30 April 2027, counted from receipt; the person is told by 1 March', () => {
		expect(deadline('eu', '2027-01-31')).toEqual({
			endsOn: '2027-02-28',
			dueOn: '2027-03-01',
			extended: { endsOn: '2027-04-30', dueOn: '2027-04-30' }
		});
	});

	test.each([
		['V-RET-04c', '2027-05-31', '2027-06-30'],
		['V-RET-04d', '2028-01-31', '2028-02-29']
	])('%s: received %s, due %s', (_, received, due) => {
		expect(deadline('eu', received).dueOn).toBe(due);
	});

	test('V-DATE-05, France: 25 December 2026 is a holiday and a Friday: Monday 28 December', () => {
		expect(deadline('fr', '2026-11-25')).toMatchObject({ endsOn: '2026-12-25', dueOn: '2026-12-28' });
	});
});

describe('United Kingdom, corresponding date rule and practice of the ICO', () => {
	test('V-DATE-05, England: 28 December 2026 is a substitute bank holiday: Tuesday 29 December', () => {
		expect(deadline('uk', '2026-11-25')).toMatchObject({ endsOn: '2026-12-25', dueOn: '2026-12-29' });
	});

	test('V-DATE-03: received 31 January 2027, due 1 March 2027', () => {
		expect(deadline('uk', '2027-01-31').dueOn).toBe('2027-03-01');
	});
});
