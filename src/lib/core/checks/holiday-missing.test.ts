import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { localDate } from '../calendar/local-date';
import holidayMissing from './holiday-missing';
import { checkInputOf } from './support/recheck';
import { findAll } from '.';

const [from, until] = [localDate('2027-12-01'), localDate('2028-01-31')];

function december(place: { country?: string; region?: string; holidayArea?: string }, listed: [string, string][] = []) {
	return rolloutOf({
		site: { name: 'Invented site', timeZone: 'Europe/London', ...place },
		horizon: { from, until },
		holidays: { coveredUntil: until, days: listed.map(([date, kind]) => ({ date: localDate(date), kind })) }
	});
}

async function find(...args: Parameters<typeof december>) {
	const rollout = december(...args);
	return [...(await holidayMissing.find(checkInputOf(rollout)))];
}

async function missing(...args: Parameters<typeof december>) {
	return (await find(...args)).map(({ dates }) => dates);
}

test('one case for each date, with no subject', async () => {
	const found = await find({ country: 'GB', region: 'SCT' });
	expect(found.map(({ dates }) => dates)).toEqual([['2027-12-27'], ['2027-12-28'], ['2028-01-03'], ['2028-01-04']]);
	expect(found.map(({ subject }) => subject)).toEqual([{}, {}, {}, {}]);
});

test('where the list has both, the day and the one given for it are asked for', async () => {
	expect(await missing({ country: 'US' })).toEqual([
		['2027-12-24'],
		['2027-12-25'],
		['2027-12-31'],
		['2028-01-01'],
		['2028-01-17']
	]);
});

test('a listed date counts whatever its kind, and other dates do not', async () => {
	const listed: [string, string][] = [
		['2027-12-24', 'shutdown'],
		['2027-12-25', 'public'],
		['2027-12-26', 'public'],
		['2027-12-31', 'half-day'],
		['2028-01-17', 'normal day']
	];
	expect(await missing({ country: 'US' }, listed)).toEqual([['2028-01-01']]);
});

test('no country: nothing is asked for; a country unknown to the source neither', async () => {
	expect(await missing({})).toEqual([]);
	expect(await missing({ region: 'IL' })).toEqual([]);
	expect(await missing({ country: 'XX' })).toEqual([]);
});

test('an area has its own days', async () => {
	const summer = (holidayArea: string) => {
		const rollout = rolloutOf({
			site: { name: 'Invented site', timeZone: 'Europe/Berlin', country: 'DE', region: 'BY', holidayArea },
			horizon: { from: localDate('2027-08-01'), until: localDate('2027-08-31') }
		});
		return holidayMissing.find(checkInputOf(rollout));
	};
	expect((await summer('KATH')).map(({ dates }) => dates)).toEqual([['2027-08-15']]);
	expect(await summer('EVANG')).toEqual([]);
});

test('as a finding it names the day and the place', async () => {
	const findings = (await findAll(december({ country: 'US', region: 'IL' }))).filter(
		({ code }) => code === 'holiday-missing'
	);
	expect(findings[0]).toEqual({
		code: 'holiday-missing',
		severity: 'warning',
		message:
			'Christmas Day (substitute day) on 2027-12-24 is a public holiday of Illinois, United States of America, and is not in ' +
			'the list of holidays.',
		subject: {},
		dates: ['2027-12-24'],
		count: 1
	});
	expect(findings).toHaveLength(5);
});
