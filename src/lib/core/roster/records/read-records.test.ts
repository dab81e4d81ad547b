import { expect, test } from 'vitest';
import { readRecords } from './read-records';

const read = (text: string, width?: number) => readRecords(text, { delimiter: ',', width });

test('CR, LF and CRLF each end a record, in one file too, and blank lines are records', () => {
	expect(read('a,b\r\nc,d\n\re,f\r').records).toEqual([['a', 'b'], ['c', 'd'], [''], ['e', 'f']]);
});

test('a line end inside quotes starts no record', () => {
	expect(read('1,"a\r\nb"\n2,c').records).toEqual([
		['1', 'a\r\nb'],
		['2', 'c']
	]);
});

test('spaces around a quoted cell are passed over, spaces of a cell without quotes stay', () => {
	expect(read('1, "a, b" , c').records).toEqual([['1', 'a, b', ' c']]);
	expect(read('1, "a, b" , c').broken.size).toBe(0);
});

test.each([
	['quotes inside a quoted cell', '1,"Bob "Bobby" Brown",x', ['1', 'Bob "Bobby" Brown', 'x'], 1],
	['quotes inside a cell without', '1,Bob 5" Brown,x', ['1', 'Bob 5" Brown', 'x'], 1],
	['text behind the closing quote', '1,"Bob" Brown,"x"', ['1', '"Bob" Brown', 'x'], 1],
	['a comma inside, text behind', '1,"Brown, Bob" jun.,x', ['1', '"Brown, Bob" jun.', 'x'], 1],
	['backslashes before quotes', '1,"Bob \\"B\\" Brown",x', ['1', 'Bob \\"B\\" Brown', 'x'], 1],
	['quotes that are never closed', '1,"Bob Brown,x', ['1', '"Bob Brown', 'x'], 1]
])('a record with %s is read and told, and the one after it is whole', (_, line, cells, brokenCell) => {
	const { records, broken, isCutOff } = read(`${line}\n2,b,y\n`, 3);
	expect(records).toEqual([cells, ['2', 'b', 'y']]);
	expect([...broken]).toEqual([[0, brokenCell]]);
	expect(isCutOff).toBe(false);
});

test('a forgotten quote does not swallow the rows up to the next quoted cell', () => {
	const { records, broken } = read('1,"Ana,x\n2,Ben,x\n3,"Kaya, Cem",x\n4,Dan,x\n', 3);
	expect(records.map(([id]) => id)).toEqual(['1', '2', '3', '4']);
	expect(records[2]).toEqual(['3', 'Kaya, Cem', 'x']);
	expect([...broken.keys()]).toEqual([0]);
});

test('a cell over several lines with a stray quote in it stays one cell', () => {
	const { records, broken } = read('1,"first "x" line\nsecond",y\n2,b,y', 3);
	expect(records).toEqual([
		['1', 'first "x" line\nsecond', 'y'],
		['2', 'b', 'y']
	]);
	expect([...broken.keys()]).toEqual([0]);
});

test('text kept from being a number by a formula has no broken quotes', () => {
	const { records, broken } = read('="00123",Ana\n', 2);
	expect(records).toEqual([['="00123"', 'Ana']]);
	expect(broken.size).toBe(0);
});

test.each(['1,a,x\n2,"Bo', '1,a,x\n2,"Bob,x', '1,a,x\n2,b,"first line\nsecond li'])(
	'%j ends inside quotes, so it is cut off',
	(text) => {
		expect(read(text, 3).isCutOff).toBe(true);
	}
);

test('quotes opened in the last line of a whole file are a breach', () => {
	const { isCutOff, records } = read('1,a,x\n2,"Bob,x\n', 3);
	expect(isCutOff).toBe(false);
	expect(records[1]).toEqual(['2', '"Bob', 'x']);
});

test('a line of nothing but delimiters does not fill the memory', () => {
	const { records } = read(`${','.repeat(100_000)}\n1,2`);
	expect(records[0]?.length).toBe(16_385);
	expect(records[1]).toEqual(['1', '2']);
});
