import { expect, test } from 'vitest';
import { localDate } from './local-date';
import { countries, holidayAreasOf, placeKnown, placeName, regionsOf, statutoryHolidays } from './statutory-holidays';

const [from, until] = [localDate('2027-01-01'), localDate('2027-12-31')];

test('an unknown country has no days and is told apart from one without holidays', () => {
	const nowhere = { country: 'XX', region: 'YY', holidayArea: null };
	expect(statutoryHolidays(nowhere, from, until)).toEqual([]);
	expect(placeKnown(nowhere)).toEqual({ country: false, region: false, holidayArea: null });
	expect(placeName(nowhere)).toBe('YY, XX');
});

test('without a country there are no days, and nothing is unknown', () => {
	const none = { country: null, region: null, holidayArea: null };
	expect(statutoryHolidays(none, from, until)).toEqual([]);
	expect(placeKnown(none)).toEqual({ country: null, region: null, holidayArea: null });
});

test('an unknown region falls back to the days of the whole country, and is told', () => {
	const place = { country: 'DE', region: 'ZZ', holidayArea: null };
	expect(statutoryHolidays(place, from, until)).toHaveLength(9);
	expect(placeKnown(place)).toEqual({ country: true, region: false, holidayArea: null });
	expect(placeName(place)).toBe('Germany');
});

test('an area is known by its code or its name there, whatever the case', () => {
	const bavaria = (holidayArea: string) => ({ country: 'DE', region: 'BY', holidayArea });
	for (const area of ['KATH', 'kath', 'Predominantly catholic communities']) {
		expect(statutoryHolidays(bavaria(area), from, until)).toHaveLength(13);
		expect(placeKnown(bavaria(area)).holidayArea).toBe(true);
	}
	expect(statutoryHolidays(bavaria('Bamberg'), from, until)).toHaveLength(12);
	expect(placeKnown(bavaria('Bamberg')).holidayArea).toBe(false);
	expect(placeName(bavaria('A'))).toBe('Stadt Augsburg, Bayern, Germany');
});

test('both ends are included, and an end before its begin has no days', () => {
	const us = { country: 'US', region: null, holidayArea: null };
	const labor = localDate('2027-09-06');
	expect(statutoryHolidays(us, labor, labor)).toEqual([{ date: labor, name: 'Labor Day', isSubstitute: false }]);
	expect(statutoryHolidays(us, until, from)).toEqual([]);
});

test('a holiday of several days lies on each of them, one of a few hours on its date and says so', () => {
	const romania = statutoryHolidays({ country: 'RO', region: null, holidayArea: null }, from, localDate('2027-01-03'));
	expect(romania.map(({ date }) => date)).toEqual(['2027-01-01', '2027-01-02']);
	const eve = localDate('2027-12-24');
	expect(statutoryHolidays({ country: 'AU', region: 'QLD', holidayArea: null }, eve, eve)).toEqual([
		{ date: eve, name: 'Christmas Eve (from 18:00)', isSubstitute: false }
	]);
});

test('two holidays on one date are one entry with both names', () => {
	const turkey = { country: 'TR', region: null, holidayArea: null };
	const day = localDate('2027-05-19');
	expect(statutoryHolidays(turkey, day, day).map(({ name }) => name)).toEqual([
		'Feast of the Sacrifice (Eid al-Adha) / Commemoration of Atatürk, Youth and Sports Day'
	]);
});

test('places to pick are listed by name', () => {
	expect(countries().find(({ code }) => code === 'US')).toEqual({ code: 'US', name: 'United States of America' });
	const names = countries().map(({ name }) => name);
	expect(names).toEqual(names.toSorted((a, b) => (a < b ? -1 : 1)));
	expect(regionsOf('GB').map(({ code }) => code)).toEqual(['ALD', 'ENG', 'NIR', 'SCT', 'WLS']);
	expect(regionsOf('IE')).toEqual([]);
	expect(regionsOf('XX')).toEqual([]);
	expect(
		holidayAreasOf('DE', 'BY')
			.map(({ code }) => code)
			.sort()
	).toEqual(['A', 'EVANG', 'KATH']);
	expect(holidayAreasOf('US', 'IL')).toEqual([]);
});
