import { describe, expect, test } from 'vitest';
import { bytesOf, lines, readRoster, told } from '../../../../tests/support/read-roster';
import { importRoster } from './import-roster';

test('V-CSV-01: the employee number 00123 survives as text', () => {
	expect(readRoster(lines('id,name,dept', '00123,Ana Ruiz,Packing')).people[0]?.id).toBe('00123');
	expect(readRoster(lines('id,name,dept', '"00123",Ana Ruiz,Packing')).people[0]?.id).toBe('00123');
});

test('V-CSV-02: cells that start with =, +, - or @ are told, and taken as text', () => {
	const names = ['=1+1', '+1+1', '-1+1', '@SUM(1)'];
	const answer = readRoster(lines('id,name,dept', ...names.map((name, index) => `100${index},${name},Packing`)));
	expect(told(answer)).toEqual(['2 formula name', '3 formula name', '4 formula name', '5 formula name']);
	expect(answer.people.map(({ name }) => name)).toEqual(names);
});

describe('V-NAME-01 (W3C i18n guidance on names)', () => {
	test('names of any kind are kept as they are written', () => {
		const names = ["O'Neil-Løkke", 'Ng', 'A', 'María José', '李 小龍', 'Suharto'];
		const answer = readRoster(lines('id,name,dept', ...names.map((name, index) => `100${index},${name},Packing`)));
		expect(answer.problems).toEqual([]);
		expect(answer.people.map(({ name }) => name)).toEqual(names);
	});
	test('é is one letter or two characters, and the same name', () => {
		const answer = readRoster(lines('id,name,dept', '1001,Jos\u0065\u0301,Packing'));
		expect(answer.people[0]?.name).toBe('Jos\u00e9');
	});
	test('two equal names are never enough for one person', () => {
		const answer = readRoster(
			lines('id,name,dept', '1001,Ana Ruiz,Packing', '1002,Ana Ruiz,Office', '1003,Ana Ruiz,Packing')
		);
		expect(told(answer)).toEqual([]);
	});
});

test('csv-spectrum, location_coordinates (standards, 6.1): a Latin-1 degree sign is decoded and said, no U+FFFD', () => {
	const text = lines('id,name,dept,place', '1001,Ana Ruiz,Packing,37°36\'37.8" N');
	const result = importRoster(bytesOf(text, 'latin1'));
	if (!result.ok) throw new Error('refused');
	expect(result.value.encoding).toBe('windows-1252');
	expect(JSON.stringify(result.value)).not.toContain('\ufffd');
	expect(result.value.problems).toMatchObject([{ code: 'quote-broken', value: '37°36\'37.8" N' }]);
});

test('csv-spectrum, newlines_crlf and json (standards, 6.1): line ends and quotes inside a cell are kept', () => {
	const answer = readRoster(
		lines('id,name,job', '1001,Ana Ruiz,"Once upon \r\na time"', '1002,Ben Ode,"{""type"": ""Point""}"')
	);
	expect(answer.people.map(({ job }) => job)).toEqual(['Once upon \r\na time', '{"type": "Point"}']);
});

test('csv-test-data, header-no-rows (standards, 6.1): nobody', () => {
	expect(readRoster('id,name,dept').people).toEqual([]);
});
