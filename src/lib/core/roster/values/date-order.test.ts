import { expect, test } from 'vitest';
import { localDate } from '../../calendar/local-date';
import { decideOrder } from './date-order';
import { type NumericDate, readDate } from './read-date';

const numeric = (text: string): NumericDate => {
	const reading = readDate(text);
	if (reading.kind !== 'numeric') throw new Error(`${text} is ${reading.kind}`);
	return reading.numeric;
};
const decide = (texts: readonly string[], header = '') => decideOrder(texts.map(numeric), header, []);

test('one date that is one in a single order decides', () => {
	expect(decide(['03/04/2027', '13/02/2027'])).toBe('day-first');
	expect(decide(['03/04/2027', '02/13/2027'])).toBe('month-first');
});

test('nothing decides among ambiguous dates, with dots neither', () => {
	expect(decide(['03/04/2027', '05/06/2027'])).toBeUndefined();
	expect(decide(['03.04.2027', '05.06.2027'])).toBeUndefined();
});

test('the same in both orders is no evidence', () => {
	expect(decide(['05/05/2027', '03/04/2027'])).toBeUndefined();
});

test('evidence for both orders is evidence for none', () => {
	expect(decide(['13/02/2027', '02/13/2027', '03/04/2027'])).toBeUndefined();
});

test('one slip in a long column does not undo what all the others prove', () => {
	const many = Array.from({ length: 40 }, (_, index) => `${13 + (index % 15)}/02/2027`);
	expect(decide([...many, '02/13/2027'])).toBe('day-first');
	expect(decide([...many.slice(0, 10), '02/13/2027'])).toBeUndefined();
});

test('the header can decide, and dates overrule it', () => {
	expect(decide(['03.04.2027'], 'Eintritt (TT.MM.JJJJ)')).toBe('day-first');
	expect(decide(['03/04/2027'], 'Hire date (MM/DD/YYYY)')).toBe('month-first');
	expect(decide(['03/04/2027'], "Date d'entrée JJ/MM/AAAA")).toBe('day-first');
	expect(decide(['13/04/2027'], 'Hire date (MM/DD/YYYY)')).toBe('day-first');
});

test('two dates known of the same people decide, one does not, nor do two that disagree', () => {
	const known = (text: string, date: string) => ({ numeric: numeric(text), date: localDate(date) });
	const dates = ['03/04/2027', '05/06/2027'].map(numeric);
	const [a, b] = [known('03/04/2027', '2027-04-03'), known('05/06/2027', '2027-06-05')];
	expect(decideOrder(dates, '', [a, b])).toBe('day-first');
	expect(decideOrder(dates, '', [a])).toBeUndefined();
	expect(decideOrder(dates, '', [a, b, known('03/04/2027', '2027-03-04')])).toBeUndefined();
});

test('two-digit years in front are recognized by what can be nothing else', () => {
	expect(decide(['98/03/15', '02/04/01'])).toBe('year-first');
});
