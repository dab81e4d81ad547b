import { readFileSync } from 'node:fs';
import Holidays, { type HolidaysTypes } from 'date-holidays';
import { describe, expect, test } from 'vitest';
import { type LocalDate, epochDayOf, localDate, weekdayOf } from './local-date';
import { statutoryCorrections } from './statutory-corrections';
import { type HolidayPlace, holidaySource, statutoryHolidays } from './statutory-holidays';

function place(country: string, region: string | null = null, holidayArea: string | null = null): HolidayPlace {
	return { country, region, holidayArea };
}

function holidaysIn(where: HolidayPlace, year: number) {
	return statutoryHolidays(where, localDate(`${year}-01-01`), localDate(`${year}-12-31`));
}

/** Dates of a year as `MM-DD`. */
function datesIn(where: HolidayPlace, year: number): string[] {
	return holidaysIn(where, year).map(({ date }) => date.slice(5));
}

function sorted(dates: string): string[] {
	return dates.split(' ').sort();
}

describe('United Kingdom, gov.uk bank holidays data of 21 August 2026 (V-HOL-01, 03, 04, 12b)', () => {
	// Dates typed in from the official data, substitute days marked S.
	const official: Readonly<Record<string, Readonly<Record<number, string>>>> = {
		ENG: {
			2026: '01-01 04-03 04-06 05-04 05-25 08-31 12-25 12-28S',
			2027: '01-01 03-26 03-29 05-03 05-31 08-30 12-27S 12-28S',
			2028: '01-03S 04-14 04-17 05-01 05-29 08-28 12-25 12-26'
		},
		SCT: {
			2026: '01-01 01-02 04-03 05-04 05-25 06-15 08-03 11-30 12-25 12-28S',
			2027: '01-01 01-04S 03-26 05-03 05-31 08-02 11-30 12-27S 12-28S',
			2028: '01-03S 01-04S 04-14 05-01 05-29 08-07 11-30 12-25 12-26'
		},
		NIR: {
			2026: '01-01 03-17 04-03 04-06 05-04 05-25 07-13S 08-31 12-25 12-28S',
			2027: '01-01 03-17 03-26 03-29 05-03 05-31 07-12 08-30 12-27S 12-28S',
			2028: '01-03S 03-17 04-14 04-17 05-01 05-29 07-12 08-28 12-25 12-26'
		}
	};
	const cases = Object.entries(official).flatMap(([division, years]) =>
		Object.entries(years).map(([year, days]) => ({ division, year: Number(year), days }))
	);
	test.each(cases)(
		'$division $year: every official day, its substitutes marked, and no other',
		({ division, year, days }) => {
			const found = holidaysIn(place('GB', division), year).map(
				({ date, isSubstitute }) => date.slice(5) + (isSubstitute ? 'S' : '')
			);
			expect(found).toEqual(days.split(' '));
		}
	);

	test('Wales, and England and Wales (EAW), have the days of England', () => {
		for (const year of [2026, 2027, 2028]) {
			expect(datesIn(place('GB', 'WLS'), year)).toEqual(datesIn(place('GB', 'ENG'), year));
			expect(datesIn(place('GB', 'EAW'), year)).toEqual(datesIn(place('GB', 'ENG'), year));
		}
	});

	test('without a region: the days that all three lists share, so not Easter Monday', () => {
		for (const [year, days] of [
			[2026, '01-01 04-03 05-04 05-25 12-25 12-28'],
			[2027, '01-01 03-26 05-03 05-31 12-27 12-28'],
			[2028, '01-03 04-14 05-01 05-29 12-25 12-26']
		] as const) {
			expect(datesIn(place('GB'), year)).toEqual(days.split(' '));
		}
	});

	test('V-HOL-02: in Scotland 3 January 2028 stands for New Year and 4 January for 2 January', () => {
		const names = new Map(holidaysIn(place('GB', 'SCT'), 2028).map(({ date, name }) => [date.slice(5), name]));
		expect(names.get('01-03')).toBe("New Year's Day (substitute day)");
		expect(names.get('01-04')).toBe('2nd January (substitute day)');
	});

	test('V-HOL-01: 15 June 2026 is a bank holiday in Scotland that year, and nowhere else in the country', () => {
		expect(datesIn(place('GB', 'SCT'), 2026)).toContain('06-15');
		expect(datesIn(place('GB', 'SCT'), 2027)).not.toContain('06-15');
		expect(datesIn(place('GB', 'ENG'), 2026)).not.toContain('06-15');
		expect(datesIn(place('GB', 'NIR'), 2026)).not.toContain('06-15');
	});
});

describe('United States, 5 U.S.C. 6103 and Executive Order 11582 section 3(a)', () => {
	// The days of 6103(a), and the day observed where one falls on a Saturday or Sunday.
	const official: Readonly<Record<number, string>> = {
		2026: '01-01 01-19 02-16 05-25 06-19 07-03 07-04 09-07 10-12 11-11 11-26 12-25',
		2027: '01-01 01-18 02-15 05-31 06-18 06-19 07-04 07-05 09-06 10-11 11-11 11-25 12-24 12-25 12-31',
		2028: '01-01 01-17 02-21 05-29 06-19 07-04 09-04 10-09 11-10 11-11 11-23 12-25'
	};
	test.each([2026, 2027, 2028])('federal days of %i, with those observed', (year) => {
		expect(datesIn(place('US'), year)).toEqual(official[year]?.split(' '));
	});

	test('V-HOL-05: Friday 10 November 2028 is observed for Veterans Day, which the library holds for a bank holiday', () => {
		expect(holidaysIn(place('US'), 2028).find(({ date }) => date === '2028-11-10')).toEqual({
			date: '2028-11-10',
			name: 'Veterans Day (substitute day)',
			isSubstitute: true
		});
	});

	test('V-HOL-06: New Year 2028 is observed on 31 December 2027, also where only 2028 or only that day is asked for', () => {
		const day = localDate('2027-12-31');
		expect(statutoryHolidays(place('US'), day, day).map(({ date }) => date)).toEqual(['2027-12-31']);
		const around = statutoryHolidays(place('US'), day, localDate('2028-01-01'));
		expect(around.map(({ date, isSubstitute }) => [date, isSubstitute])).toEqual([
			['2027-12-31', true],
			['2028-01-01', false]
		]);
	});

	test('Illinois has its own days beside the federal ones: 205 ILCS 630/17(a), 10 ILCS 5/1-6(b)', () => {
		const own = (year: number) =>
			datesIn(place('US', 'IL'), year).filter((date) => !datesIn(place('US'), year).includes(date));
		expect(own(2027)).toEqual(['02-12', '03-01']);
		// The day of the general election for the House, in even years.
		expect(own(2028)).toEqual(['02-12', '03-06', '11-07']);
	});
});

describe('France, official data of Etalab, 1 May 2026', () => {
	const fixed = '01-01 05-01 05-08 07-14 08-15 11-01 11-11 12-25';
	const moving: Readonly<Record<number, string>> = {
		2026: '04-06 05-14 05-25',
		2027: '03-29 05-06 05-17',
		2028: '04-17 05-25 06-05'
	};
	const goodFriday: Readonly<Record<number, string>> = { 2026: '04-03', 2027: '03-26', 2028: '04-14' };

	test.each([2026, 2027, 2028])('the 11 days of %i, of which none moves from a weekend', (year) => {
		expect(datesIn(place('FR'), year)).toEqual(sorted(`${fixed} ${moving[year] ?? ''}`));
	});

	test.each([2026, 2027, 2028])('Alsace and Moselle have 13 in %i', (year) => {
		const all = sorted(`${fixed} ${moving[year] ?? ''} ${goodFriday[year] ?? ''} 12-26`);
		for (const region of ['57', '67', '68', '6AE']) expect(datesIn(place('FR', region), year)).toEqual(all);
	});

	test('a region that is divided by holidays names the part as its area', () => {
		expect(datesIn(place('FR', 'GES', '57'), 2027)).toHaveLength(13);
		expect(datesIn(place('FR', 'GES'), 2027)).toHaveLength(11);
	});
});

describe('New South Wales, Public Holidays Act 2010 as listed by Local Government NSW', () => {
	test.each([
		[2026, '01-01 01-26 04-03 04-04 04-05 04-06 04-25 04-27 06-08 10-05 12-25 12-26 12-28'],
		[2027, '01-01 01-26 03-26 03-27 03-28 03-29 04-25 04-26 06-14 10-04 12-25 12-26 12-27 12-28']
	])('every day of %i, weekend days and additional ones', (year, days) => {
		expect(datesIn(place('AU', 'NSW'), year)).toEqual(days.split(' '));
	});

	test('V-HOL-10: the first Monday in August is for banks only', () => {
		expect(datesIn(place('AU', 'NSW'), 2026)).not.toContain('08-03');
		expect(datesIn(place('AU', 'NSW'), 2027)).not.toContain('08-02');
	});

	test('the additional Monday for Anzac Day is for 2026 and 2027 only; 25 April 2032 is a Sunday', () => {
		expect(weekdayOf(epochDayOf(localDate('2032-04-25')))).toBe('sun');
		expect(datesIn(place('AU', 'NSW'), 2032)).toContain('04-25');
		expect(datesIn(place('AU', 'NSW'), 2032)).not.toContain('04-26');
	});
});

describe('Ireland, ten public holidays of which none moves', () => {
	test.each([
		[2026, '01-01 02-02 03-17 04-06 05-04 06-01 08-03 10-26 12-25 12-26'],
		[2027, '01-01 02-01 03-17 03-29 05-03 06-07 08-02 10-25 12-25 12-26'],
		[2028, '01-01 02-07 03-17 04-17 05-01 06-05 08-07 10-30 12-25 12-26']
	])('%i (V-HOL-11: no day is given for a weekend day)', (year, days) => {
		expect(datesIn(place('IE'), year)).toEqual(days.split(' '));
	});
});

describe('Germany by Land', () => {
	const nationwide: Readonly<Record<number, string>> = {
		2026: '01-01 04-03 04-06 05-01 05-14 05-25 10-03 12-25 12-26',
		2027: '01-01 03-26 03-29 05-01 05-06 05-17 10-03 12-25 12-26',
		2028: '01-01 04-14 04-17 05-01 05-25 06-05 10-03 12-25 12-26'
	};
	const corpusChristi: Readonly<Record<number, string>> = { 2026: '06-04', 2027: '05-27', 2028: '06-15' };
	const repentance: Readonly<Record<number, string>> = { 2026: '11-18', 2027: '11-17', 2028: '11-22' };
	const easter: Readonly<Record<number, string>> = { 2026: '04-05', 2027: '03-28', 2028: '04-16' };
	const whitSunday: Readonly<Record<number, string>> = { 2026: '05-24', 2027: '05-16', 2028: '06-04' };
	const extras: Readonly<Record<string, (year: number) => string>> = {
		BW: (year) => `01-06 ${corpusChristi[year] ?? ''} 11-01`,
		BY: (year) => `01-06 ${corpusChristi[year] ?? ''} 11-01`,
		BE: (year) => (year === 2028 ? '03-08 06-17' : '03-08'),
		BB: (year) => `${easter[year] ?? ''} ${whitSunday[year] ?? ''} 10-31`,
		HB: () => '10-31',
		HH: () => '10-31',
		NI: () => '10-31',
		SH: () => '10-31',
		HE: (year) => corpusChristi[year] ?? '',
		MV: () => '03-08 10-31',
		NW: (year) => `${corpusChristi[year] ?? ''} 11-01`,
		RP: (year) => `${corpusChristi[year] ?? ''} 11-01`,
		SL: (year) => `${corpusChristi[year] ?? ''} 08-15 11-01`,
		SN: (year) => `10-31 ${repentance[year] ?? ''}`,
		ST: () => '01-06 10-31',
		TH: () => '09-20 10-31'
	};
	test.each(Object.keys(extras))('%s: the nine days of the country and its own', (land) => {
		for (const year of [2026, 2027, 2028]) {
			const all = sorted(`${nationwide[year] ?? ''} ${extras[land]?.(year) ?? ''}`);
			expect(datesIn(place('DE', land), year)).toEqual(all);
		}
	});

	test('without a Land, the nine days of the country', () => {
		for (const year of [2026, 2027, 2028]) expect(datesIn(place('DE'), year)).toEqual(nationwide[year]?.split(' '));
	});

	test('V-HOL-08: 15 August in Bavaria goes by the commune, 8 August is for Augsburg', () => {
		const extra = (area: string) =>
			datesIn(place('DE', 'BY', area), 2026).filter((date) => !datesIn(place('DE', 'BY'), 2026).includes(date));
		expect(extra('KATH')).toEqual(['08-15']);
		expect(extra('EVANG')).toEqual([]);
		expect(extra('A')).toEqual(['08-08', '08-15']);
		expect(datesIn(place('DE', 'BY', 'KATH'), 2026)).toHaveLength(13);
		expect(datesIn(place('DE', 'BY', 'A'), 2026)).toHaveLength(14);
	});

	test('V-HOL-09: 24 and 31 December are no public holidays in Bavaria', () => {
		const dates = datesIn(place('DE', 'BY'), 2026);
		expect(dates).not.toContain('12-24');
		expect(dates).not.toContain('12-31');
	});
});

describe('Canada', () => {
	test.each([
		[2026, '01-01 02-16 04-03 05-18 07-01 09-07 10-12 12-25 12-26'],
		[2027, '01-01 02-15 03-26 05-24 07-01 09-06 10-11 12-25 12-26'],
		[2028, '01-01 02-21 04-14 05-22 07-01 09-04 10-09 12-25 12-26']
	])('V-HOL-07: Ontario %i, the nine days of the Employment Standards Act, without Easter Monday', (year, days) => {
		expect(datesIn(place('CA', 'ON'), year)).toEqual(days.split(' '));
	});

	test('V-HOL-12: without a province, the five days that all provinces share', () => {
		expect(datesIn(place('CA'), 2027)).toEqual('01-01 03-26 07-01 09-06 12-25'.split(' '));
	});
});

test('V-HOL-15: 25 May 2026 is a holiday in England, the United States, France and Germany at once', () => {
	for (const where of [place('GB', 'ENG'), place('US'), place('FR'), place('DE')]) {
		expect(datesIn(where, 2026)).toContain('05-25');
	}
});

describe('each correction is still needed: the library as installed has what it corrects', () => {
	test.each(
		statutoryCorrections.map((one) => ({ ...one, title: `${one.country} ${one.region ?? 'no region'}: ${one.why}` }))
	)('$title', ({ country, region, effect, source }) => {
		const library = region === null || region === 'all' ? new Holidays(country) : new Holidays(country, region);
		const days = Array.from({ length: 20 }, (_, index) => library.getHolidays(2018 + index, 'en')).flat();
		const has = (test: (day: HolidaysTypes.Holiday) => boolean) => days.some(test);
		expect(source).not.toBe('');
		switch (effect.kind) {
			case 'add':
				expect(has((day) => day.type === 'public' && day.date.startsWith(effect.date))).toBe(false);
				break;
			case 'drop':
				expect(has((day) => day.type === 'public' && day.rule === effect.rule)).toBe(true);
				break;
			case 'drop-substitute':
				expect(has((day) => day.rule === effect.rule && day.substitute === true)).toBe(true);
				break;
			case 'count':
				expect(has((day) => day.type === 'bank' && day.rule === effect.rule)).toBe(true);
				break;
			case 'rename':
				expect(has((day) => day.rule === effect.rule && day.name !== effect.name)).toBe(true);
				break;
			case 'weekdays-only':
				expect(
					has((day) => day.type === 'public' && ['Sat', 'Sun'].includes(day.start.toUTCString().slice(0, 3)))
				).toBe(true);
		}
	});
});

test('the version and license told are those of the library installed', () => {
	const installed = JSON.parse(readFileSync('node_modules/date-holidays/package.json', 'utf8')) as {
		version: string;
		license: string;
	};
	expect(holidaySource.version).toBe(installed.version);
	expect(installed.license).toBe(`(${holidaySource.license})`);
});

test('substitute days of the United Kingdom are weekdays in every year of a long horizon', () => {
	const days = statutoryHolidays(place('GB', 'SCT'), localDate('2024-01-01'), localDate('2036-12-31'));
	const weekend = days.filter(({ date }) => ['sat', 'sun'].includes(weekdayOf(epochDayOf(date))));
	expect(weekend).toEqual([]);
	const count = (year: number) => days.filter(({ date }: { date: LocalDate }) => date.startsWith(String(year))).length;
	// Nine days by the Act of 1971 and its proclamations since 2007; one more in 2026.
	for (let year = 2024; year <= 2036; year++) expect(count(year)).toBe(year === 2026 ? 10 : 9);
});
