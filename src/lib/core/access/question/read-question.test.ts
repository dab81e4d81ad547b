import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rolloutOf } from '../../../../../tests/support/rollout-of';
import { readRollout } from '../../answers/support/read-rollout';
import type { LocalDate } from '../../calendar/local-date';
import { longestQuestion, readQuestion } from './read-question';

const on = (date: string) => date as LocalDate;
const rollout = rolloutOf({
	horizon: { from: on('2027-01-04'), until: on('2028-06-30') },
	areas: [
		{ id: 'yard', name: 'Yard', outside: true },
		{ id: 'hall', name: 'Packing hall' },
		{ id: 'cold', name: 'Cold store' },
		{ id: 'pump', name: 'Pump room' }
	],
	doors: [
		{ id: 'front', name: 'Front entrance', from: 'yard', to: 'hall' },
		{ id: 'cold-1', name: 'Cold room 1', from: 'hall', to: 'cold' },
		{ id: 'cold-2', name: 'Cold room 2', from: 'hall', to: 'cold' },
		{ id: 'gallery', name: 'Visitors’ gallery', from: 'yard', to: 'hall' }
	],
	people: [
		{ id: '1001', name: 'Ada Quill', department: 'Night crew' },
		{ id: '1002', name: 'Ben Marsh', department: 'Office' },
		{ id: '1003', name: 'Fermín Bañuelos', department: 'Office' },
		{ id: '1004', name: 'Cleo Tarn' },
		{ id: '1005', name: 'Cleo Tarn' },
		{ id: '1006', name: 'Ada Tarn' }
	],
	holidays: {
		days: [
			{ date: on('2027-12-25'), name: 'Christmas Day', kind: 'public' },
			{ date: on('2028-01-01'), name: 'New Year’s Day', kind: 'public' },
			{ date: on('2027-08-02'), name: 'Summer defrost', kind: 'shutdown' },
			{ date: on('2027-08-03'), name: 'Summer defrost', kind: 'shutdown' }
		]
	}
});
const today = on('2027-03-03'); // a Wednesday
const read = (text: string, asked = today) => readQuestion(rollout, text, asked);
const short = (text: string) => {
	const { kind, person, door, area, department, at, isReady } = read(text);
	return [kind, person ?? '-', door ?? area ?? '-', department ?? '-', at, isReady ? 'ready' : 'not ready'].join(' ');
};

describe('questions that are understood', () => {
	it.each([
		['who can open Cold room 1 at 02:30 on 25 December?', 'who - cold-1 - 2027-12-25T02:30 ready'],
		['Who can open cold-1 at 2.30pm on Dec 25, 2027', 'who - cold-1 - 2027-12-25T14:30 ready'],
		['who may get into the cold store at midnight on 2027-12-25', 'who - cold - 2027-12-25T00:00 ready'],
		['who can open the front entrance at noon tomorrow', 'who - front - 2027-03-04T12:00 ready'],
		[
			'who in Night crew can open the visitors gallery at 22:00 on Friday',
			'who - gallery Night crew 2027-03-05T22:00 ready'
		],
		["WHO CAN OPEN VISITORS' GALLERY AT 6 AM ON NEW YEAR'S DAY", 'who - gallery - 2028-01-01T06:00 ready'],
		['who can open the front entrance at 05:45 on Christmas Day', 'who - front - 2027-12-25T05:45 ready'],
		['can Ada Quill open cold room 2 at half past two pm on 25/12', 'why 1001 cold-2 - 2027-12-25T14:30 ready'],
		["why can't 1001 open cold room 1 at 02:30 on Saturday 25 December?", 'why 1001 cold-1 - 2027-12-25T02:30 ready'],
		[
			'why can fermin banuelos not open Front entrance at 24:00 on 1 March 2027',
			'why 1003 front - 2027-03-02T00:00 ready'
		],
		['when can Ben Marsh open the front entrance?', 'when 1002 front - 2027-03-03T00:00 ready'],
		['what can Ben Marsh open at quarter to six pm on 1.4.2027', 'what 1002 - - 2027-01-04T17:45 not ready'],
		['what can Ben Marsh open at quarter to six pm on 13.4.2027', 'what 1002 - - 2027-04-13T17:45 ready'],
		['Which doors can person "1004" open at 0230 the day after tomorrow', 'what 1004 - - 2027-03-05T02:30 ready'],
		['front entrance 6:30 pm 29 February 2028', 'who - front - 2028-02-29T18:30 ready'],
		['who can open front at 12 am on 4 jan 2028', 'who - front - 2028-01-04T00:00 ready'],
		['who can open the pump room at 12 pm today', 'who - pump - 2027-03-03T12:00 ready'],
		['who can open front at 06:00 in 3 days', 'who - front - 2027-03-06T06:00 ready'],
		['who can open front at 06:00 next Wednesday', 'who - front - 2027-03-10T06:00 ready'],
		['marsh front entrance 07:00', 'why 1002 front - 2027-03-03T07:00 ready']
	])('%s', (text, expected) => {
		expect(short(text)).toBe(expected);
	});

	it('tell how each part was read, and what was taken for granted', () => {
		expect(read('who can open Cold room 1 at 2:30 on 25 December?')).toMatchObject({
			heard: [
				{ words: 'Cold room 1', as: 'door Cold room 1' },
				{ words: '2:30', as: '02:30' },
				{ words: '25 December', as: 'Sat 25 December 2027' }
			],
			assumed: ['No year is named: Sat 25 December 2027 is taken, in the horizon.'],
			faults: []
		});
		expect(read('who can open Cold room 1').assumed).toEqual([
			'No date is named: today, Wed 3 March 2027, is taken.',
			'No time is named: 08:00 is taken.'
		]);
		expect(readQuestion(rollout, 'who can open Cold room 1', on('2026-11-25')).assumed[0]).toBe(
			'No date is named: the first of the horizon, Mon 4 January 2027, is taken.'
		);
		expect(read('who can quietly open front at 06:00').assumed).toContain('Passed over, not understood: quietly.');
	});
});

describe('what may mean something else', () => {
	const choices = (text: string, asked = today) =>
		read(text, asked).choices.map(({ isOpen, options }) => [
			isOpen ? 'asks' : 'offers',
			...options.map(({ label }) => label)
		]);

	it.each([
		['who can open front at 2:30', ['offers', '14:30']],
		['who can open front at 5', ['offers', '17:00']],
		['who can open front at midnight on 25 December', ['offers', 'the midnight at the end of the date']],
		['who can open front at 06:00 on 2 May', ['offers', 'Tue 2 May 2028']],
		['who can open front at 06:00 on 5/6/2027', ['asks', 'Thu 6 May 2027', 'Sat 5 June 2027']],
		['who can open front at 06:00 on summer defrost', ['offers', 'Tue 3 August 2027']],
		[
			'who can open the cold room at 02:30 on 25 December',
			['asks', 'door Cold room 1 (cold-1)', 'door Cold room 2 (cold-2)']
		],
		['when can Cleo Tarn open front', ['asks', 'person Cleo Tarn (1004)', 'person Cleo Tarn (1005)']],
		['what can Ada open at 06:00', ['asks', 'person Ada Quill (1001)', 'person Ada Tarn (1006)']],
		['who can open frnt entrance at 06:00', ['asks', 'door Front entrance (front)']],
		['can Ada Quil open front at 06:00', ['asks', 'person Ada Quill (1001)']],
		['can Ada Quill get into the cold store at 02:00', ['asks', 'Cold room 1', 'Cold room 2']]
	])('%s', (text, expected) => {
		expect(choices(text)).toContainEqual(expected);
	});

	it('is offered where a name fits but for a plural, and longer names have its words', () => {
		const demo = readRollout(readFileSync('demo-data/larkfen-cold-store.json'));
		if (!demo.ok) throw new Error('the demo is refused');
		const found = readQuestion(demo.value.rollout, 'who can open the cold room at 02:30 on 25 December?', today);
		expect([found.area, found.isReady]).toEqual(['cold', true]);
		expect(found.choices[0]?.options.map(({ label }) => label)).toContain('door Cold room 1 from the dock (cold-1)');
	});

	it('is put as a question that means only that, and is understood', () => {
		const texts = [
			'who can open front at 5 on 2 May',
			'who can open the cold room at 2:30 on 5/6',
			'why can Cleo Tarn not open frnt entrance at midnight on 25 December',
			'can Ada Quill get into the cold store at 02:00'
		];
		for (const text of texts) {
			const asked = read(text).choices;
			expect(asked.length).toBeGreaterThan(0);
			for (const { options, about } of asked) {
				for (const { question } of options) {
					expect(read(question).choices.map((choice) => choice.about)).not.toContain(about);
					expect(read(question).faults).toEqual([]);
				}
			}
		}
	});

	it('is ready once every open choice is made', () => {
		const once = read('why can Cleo Tarn not open the cold room at 02:30 on 5/6/2027');
		expect(once.choices.filter(({ isOpen }) => isOpen)).toHaveLength(3);
		let text = once.text;
		for (let step = 0; step < 3; step++)
			text = read(text).choices.find(({ isOpen }) => isOpen)?.options[0]?.question ?? text;
		expect(short(text)).toBe('why 1004 cold-1 - 2027-05-06T02:30 ready');
	});
});

describe('what is not understood is told', () => {
	it.each([
		['', 'Nothing is asked yet.'],
		['x'.repeat(longestQuestion + 1), 'A question of more than 300 characters is not read.'],
		['who can open it at 02:30', 'No door, area or person of this rollout is named.'],
		['who can open front at 25:00', '25:00 is no time of day.'],
		['who can open front at 13 pm', '13 pm is no time of day.'],
		['who can open front at 06:00 on 31 April', 'There is no 31 April: that month has 30 days.'],
		['who can open front at 06:00 on 29 February 2027', 'There is no 29 February 2027'],
		['who can open front at 06:00 on 2027-02-30', 'There is no date 2027-02-30.'],
		['who can open front at 06:00 on 13/14/2027', 'neither number is a month'],
		['who can open front at 06:00 on Friday 25 December 2027', 'Sat 25 December 2027 is no Friday.'],
		['who can open front at 06:00 and 07:00', 'Two times are named'],
		['who can open front on 1 May and 2 May', 'Two dates are named'],
		['who can open front entrance or cold room 1 at 06:00', 'ask about one door or area at a time'],
		['who can open door "nowhere" at 06:00', 'Nothing of this rollout is called door "nowhere".']
	])('%s', (text, expected) => {
		const { faults, isReady } = read(text);
		expect(faults.join('\n')).toContain(expected);
		expect(isReady).toBe(false);
	});
});

describe('any text', () => {
	const word = fc.constantFrom(
		...[
			'who',
			'can',
			'open',
			'when',
			'cold',
			'room',
			'1',
			'Ada',
			'Tarn',
			'front',
			'"',
			'door "',
			'25/12',
			'at',
			'2:30',
			'am',
			'5',
			'\u0001',
			'\ud83d',
			'İ',
			'ﬀ'
		],
		...[
			'midnight',
			'December',
			'31',
			'may',
			'Friday',
			'25:99',
			'1.1.',
			'2027-13-01',
			'next',
			"o'clock",
			'’',
			'０２：３０',
			'\u0000'
		]
	);

	it('is read without a failure, and never as longer than it is', () => {
		fc.assert(
			fc.property(
				fc.oneof(
					fc.string({ unit: 'binary', maxLength: 80 }),
					fc.array(word, { maxLength: 14 }).map((words) => words.join(' '))
				),
				(text) => {
					const found = read(text);
					expect(found.text).toBe(text);
					expect(found.at).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d$/);
					for (const { words } of found.heard) expect(text).toContain(words);
					expect(found.isReady).toBe(found.faults.length === 0 && !found.choices.some(({ isOpen }) => isOpen));
				}
			),
			{ numRuns: 600, seed: 20_270_303 }
		);
	});

	it('of bytes that are no text', () => {
		fc.assert(
			fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
				expect(read(new TextDecoder('utf-8').decode(bytes)).isReady).toBe(false);
			}),
			{ numRuns: 200, seed: 1 }
		);
	});
});

it('every person, door and area of the demo is found by its whole name', () => {
	const demo = readRollout(readFileSync('demo-data/larkfen-cold-store.json'));
	if (!demo.ok) throw new Error('the demo is refused');
	const { rollout: larkfen } = demo.value;
	for (const { id, name } of larkfen.doors) {
		expect(readQuestion(larkfen, `who can open the ${name ?? id} at 06:00 on 8 June`, today).door).toBe(id);
	}
	const namesakes = (name: string | null) => larkfen.people.filter((one) => one.name === name).length;
	for (const { id, name } of larkfen.people) {
		const asked = readQuestion(larkfen, `what can ${name ?? id} open at 06:00 on 8 June`, today);
		expect([asked.person, name]).toEqual([namesakes(name) === 1 ? id : null, name]);
		expect(readQuestion(larkfen, `what can ${id} open at 06:00 on 8 June`, today).person).toBe(id);
	}
});
