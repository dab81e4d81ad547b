import { expect, test } from 'vitest';
import { readDocument } from './read';

const known = { regimes: ['us-il', 'eu'] };
const least = {
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Test', timeZone: 'America/Chicago' },
	horizon: { from: '2027-01-04', until: '2027-12-31' }
};

function faultsOf(value: unknown): string[] {
	const read = readDocument(typeof value === 'string' ? value : JSON.stringify(value), known);
	return read.ok ? [] : read.faults.map((one) => `${one.path}|${one.nearest ?? ''}`);
}

test('the least document gets every default', () => {
	const read = readDocument(JSON.stringify(least), known);
	if (!read.ok) throw new Error(JSON.stringify(read.faults));
	expect(read.value.rollout).toMatchObject({
		areas: [],
		holidays: { coveredUntil: null, days: [] },
		site: { arriveEarlyMinutes: 0, country: null },
		enrollment: { gridMinutes: 5, assumptions: { noShow: 0 } },
		privacy: { siteRules: { daysUnused: null } }
	});
	expect(read.value.document).toEqual(least);
});

test('every fault is told in one go, each with its path', () => {
	expect(
		faultsOf({
			...least,
			horizon: { from: '2027-02-29', until: '2026-01-01' },
			aeras: [],
			areas: [{ id: 'street', outside: true }, { id: 'lobby' }, { id: 'lobby', colour: 'red' }],
			doors: [
				{ id: 'main', from: 'street', to: 'loby', exit: 'fre' },
				{ from: 'street', to: 'lobby' }
			],
			schedules: [{ id: 's', week: { mon: ['24:00-06:00', '07:00-24:00'] }, holidays: { public: ['8:00-12:00'] } }],
			shiftPatterns: [{ id: 'p', anchor: '2027-01-04', cycleDays: 7, shifts: [{ day: 7, at: '06:00-14:00' }] }],
			readers: [{ id: 'r', door: 'main', milliamps: -1 }],
			enrollment: { stations: [{ id: 's1', area: 'lobby', lanes: '1' }] },
			privacy: { regimes: ['us-ill'] }
		}).sort()
	).toEqual(
		[
			'$.horizon.from|',
			'$.aeras|areas',
			'$.areas[2].colour|',
			'$.areas[2].id|',
			'$.doors[0].to|lobby',
			'$.doors[0].exit|free',
			'$.doors[1].id|',
			'$.schedules[0].week.mon[0]|',
			'$.schedules[0].holidays.public[0]|',
			'$.shiftPatterns[0].shifts[0].day|',
			'$.readers[0].milliamps|',
			'$.enrollment.stations[0].lanes|',
			'$.privacy.regimes[0]|us-il'
		].sort()
	);
});

test('limits in the wrong order are told at the later field', () => {
	expect(faultsOf({ ...least, horizon: { from: '2027-02-01', until: '2027-01-31' } })).toEqual(['$.horizon.until|']);
	expect(faultsOf({ ...least, horizon: { from: '2027-02-01', until: '2037-02-02' } })).toEqual(['$.horizon.until|']);
	expect(faultsOf({ ...least, horizon: { from: '2027-02-01', until: '2037-02-01' } })).toEqual([]);
	expect(faultsOf({ ...least, people: [{ id: 'a', startsOn: '2027-02-01', leavesOn: '2027-01-01' }] })).toEqual([
		'$.people[0].leavesOn|'
	]);
});

test('keys that stand twice and the key __proto__ are refused with their path', () => {
	const text = JSON.stringify(least).replace('"version":1', '"version":1,"ver\\u0073ion":1,"__proto__":{"x":1}');
	expect(faultsOf(text)).toEqual(['$.version|', '$.__proto__|']);
	expect(faultsOf('{"areas":[{"id":"a"},{"id":"b","id":"c"}]}')).toContain('$.areas[1].id|');
	expect(faultsOf(JSON.stringify(least).replace('"version"', '"__proto__":1,"__proto__":2,"version"'))).toEqual([
		'$.__proto__|',
		'$.__proto__|'
	]);
});

test('what is no JSON, no UTF-8 or empty is one fault at the root; a byte order mark is skipped', () => {
	for (const text of ['', '  ', '{"format":', 'nonsense', '[1,2', '\u0000\u0001']) {
		expect(faultsOf(text)).toEqual(['$|']);
	}
	const bytes = (...start: number[]) => new Uint8Array([...start, ...new TextEncoder().encode(JSON.stringify(least))]);
	expect(readDocument(bytes(0xef, 0xbb, 0xbf), known).ok).toBe(true);
	const read = readDocument(bytes(0xff, 0xfe), known);
	expect(read.ok ? [] : read.faults.map((one) => one.path)).toEqual(['$']);
	expect(faultsOf('[]')).toEqual(['$|']);
	expect(faultsOf('null')).toEqual(['$|']);
});

test('a key with odd characters is quoted as RFC 9535, section 2.7 says', () => {
	expect(faultsOf({ ...least, "it's": 1 })).toEqual(["$['it\\'s']|"]);
});

test("a reader on another controller than its door's is a fault", () => {
	expect(
		faultsOf({
			...least,
			areas: [{ id: 'a', outside: true }, { id: 'b' }],
			controllers: [{ id: 'c1' }, { id: 'c2' }],
			doors: [{ id: 'd', from: 'a', to: 'b', controller: 'c1' }],
			readers: [
				{ id: 'r1', door: 'd', controller: 'c2' },
				{ id: 'r2', door: 'd' }
			]
		})
	).toEqual(['$.readers[0].controller|']);
	// A door that names no controller has none to differ from.
	expect(
		faultsOf({
			...least,
			areas: [{ id: 'a', outside: true }, { id: 'b' }],
			controllers: [{ id: 'c1' }],
			doors: [{ id: 'd', from: 'a', to: 'b' }],
			readers: [{ id: 'r1', door: 'd', controller: 'c1' }]
		})
	).toEqual([]);
});
