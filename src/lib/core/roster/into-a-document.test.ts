import { describe, expect, test } from 'vitest';
import { lines, readRoster, told } from '../../../../tests/support/read-roster';
import { rolloutSchema } from '../document/schema';

describe('with a document', () => {
	const into = rolloutSchema.parse({
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Larkfen', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		areas: [{ id: 'packing', name: 'Packing hall' }, { id: 'lobby' }],
		shiftPatterns: [{ id: 'early', name: 'Early shift', anchor: '2027-01-04', cycleDays: 7 }],
		enrollment: { waves: [{ id: 'w1', name: 'First wave' }], captureClasses: [{ id: 'standard', minutes: 8 }] },
		privacy: {
			notices: [
				{ id: 'n1', version: '1', language: 'en', publishedOn: '2026-12-01' },
				{ id: 'n2', version: '1', language: 'de', publishedOn: '2026-12-01' }
			]
		},
		people: [
			{
				id: '0001',
				name: 'Ana Ruiz',
				department: 'Packing',
				shiftPattern: 'early',
				wave: 'w1',
				language: 'en',
				startsOn: '2020-02-01'
			},
			{ id: '0002', name: 'Ben Ode', department: 'Office', startsOn: '2021-04-03' },
			{ id: '0003', name: 'Cem Kaya', department: 'Packing', startsOn: '2022-06-05' },
			{ id: '0004', name: 'Dan Moe', department: 'Packing' }
		]
	});

	test('joined, moved field by field, left, unchanged', () => {
		const answer = readRoster(
			lines(
				'id,name,department,shift',
				'0001,Ana Ruiz,Packing,Early shift',
				'0002,Ben Ode,Packing,',
				'0005,Eva Moe,Office,early'
			),
			{ into }
		);
		expect(answer.changes).toEqual({
			joined: ['0005'],
			moved: [{ person: '0002', fields: { department: ['Office', 'Packing'] } }],
			left: ['0003', '0004'],
			unchanged: ['0001']
		});
		expect(answer.people.map(({ shiftPattern }) => shiftPattern)).toEqual(['early', null, 'early']);
	});

	test('value-unknown: the nearest is offered; what must exist is left empty and changes nothing, free words are kept', () => {
		const answer = readRoster(
			lines('id,name,department,shift,wave,language,work areas', '0001,Ana Ruiz,Pakcing,erly,w2,pl,packing;lobyb'),
			{ into }
		);
		expect(answer.problems.map(({ code, column, value, nearest }) => [code, column, value, nearest])).toEqual([
			['value-unknown', 'department', 'Pakcing', 'Packing'],
			['value-unknown', 'shift', 'erly', 'early'],
			['value-unknown', 'wave', 'w2', 'w1'],
			['value-unknown', 'language', 'pl', undefined],
			['value-unknown', 'work areas', 'lobyb', 'lobby']
		]);
		expect(answer.people).toEqual([
			{
				id: '0001',
				name: 'Ana Ruiz',
				department: 'Pakcing',
				shiftPattern: null,
				wave: null,
				language: 'pl',
				workAreas: ['packing']
			}
		]);
		expect(answer.changes.moved).toEqual([
			{ person: '0001', fields: { department: ['Packing', 'Pakcing'], language: ['en', 'pl'] } }
		]);
	});

	test('known values are found whatever the capitals, by name and, for languages, by their names', () => {
		const answer = readRoster(
			lines(
				'id,name,department,shift,wave,language',
				'0001,Ana Ruiz,PACKING,EARLY,First  wave,English',
				'0002,Ben Ode,office,,,Niemiecki'
			),
			{ into }
		);
		expect(answer.problems).toEqual([]);
		expect(answer.people[0]).toMatchObject({
			department: 'Packing',
			shiftPattern: 'early',
			wave: 'w1',
			language: 'en'
		});
		expect(answer.people[1]).toMatchObject({ department: 'Office', language: 'de' });
	});

	test('nobody leaves by a row that was held back', () => {
		const answer = readRoster(
			lines('id,name,department', '0001,Ana Ruiz,Packing', '2,Ben Ode,Office', ',Cem Kaya,Packing'),
			{
				into
			}
		);
		expect(told(answer)).toEqual(['3 id-damaged id', '4 id-missing id']);
		expect(answer.problems[0]?.nearest).toBe('0002');
		expect(answer.changes).toMatchObject({ joined: [], left: ['0004'], unchanged: ['0001'] });
	});

	test('a column that lost all its zeros is told by the ids that are known', () => {
		const answer = readRoster(lines('id,name,department', '1,Ana Ruiz,Packing', '2,Ben Ode,Office'), { into });
		expect(told(answer)).toEqual(['2 id-damaged id', '3 id-damaged id']);
		expect(answer.changes).toMatchObject({ joined: [], left: ['0003', '0004'] });
	});

	test('somebody under a new id', () => {
		const answer = readRoster(
			lines('id,name,department,start date', '0001,Ana Ruiz,Packing,2020-02-01', '7001,Ben Ode,Office,2021-04-03'),
			{ into }
		);
		expect(answer.problems).toMatchObject([{ row: 3, code: 'same-person', value: '7001', nearest: '0002' }]);
	});

	test('the order of ambiguous dates is known from people who are', () => {
		const list = lines(
			'id,name,department,start date',
			'0002,Ben Ode,Office,03/04/2021',
			'0003,Cem Kaya,Packing,05/06/2022'
		);
		expect(told(readRoster(list))).toEqual(['2 date-order-unknown start date']);
		expect(readRoster(list, { into }).changes.unchanged).toEqual(['0002', '0003']);
	});

	test('a cell that could not be read changes nothing', () => {
		const answer = readRoster(lines('id,name,department,start date', '0002,Ben Ode,Office,31.02.2021'), { into });
		expect(answer.changes.unchanged).toEqual(['0002']);
	});

	test('the document is not changed', () => {
		const before = structuredClone(into);
		readRoster(lines('id,name,department', '0002,Ben Ode,Packing'), { into });
		expect(into).toEqual(before);
	});
});
