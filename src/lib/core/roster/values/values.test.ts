import { describe, expect, test } from 'vitest';
import { cellText, isFormula } from './cell-text';
import { isEmail } from './email';
import { damageOf, surveyIds } from './ids';
import { areLastFirst, turnedName } from './person-names';

test('a cell is trimmed, its no-break spaces are spaces, and it is in NFC', () => {
	expect(cellText('\u00a0Ana\u00a0Ruiz \t')).toBe('Ana Ruiz');
	expect(cellText('Jose\u0301')).toBe('José');
	expect(cellText('\ufeff00123\u200b')).toBe('00123');
	expect(cellText('two  spaces')).toBe('two  spaces');
});

describe('formulas (OWASP, CSV injection; V-CSV-02)', () => {
	test.each([
		'=1+1',
		'=HYPERLINK("x")',
		'+cmd|x',
		'+1+1',
		'-2+3',
		'@SUM(A1)',
		'\t=1',
		'\r=1',
		'="00123"',
		'＝1',
		' =1',
		'-x'
	])('%j is one', (text) => expect(isFormula(text)).toBe(true));
	test.each([
		'-5',
		'-5.3',
		'+3',
		'+49 30 1234567',
		'+1 (555) 010-0100',
		'-',
		'--',
		'a=b',
		'\t00123',
		'',
		'1-2',
		"O'Neil"
	])('%j is none', (text) => expect(isFormula(text)).toBe(false));
});

describe('e-mail addresses (RFC 5321, RFC 6531)', () => {
	test.each([
		'ana@example.org',
		'a.b+c@sub.example.co',
		"o'neil@example.org",
		'jörg@müller.example',
		'x@xn--mller-kva.example'
	])('%s is one', (text) => expect(isEmail(text)).toBe(true));
	test.each([
		'ana',
		'ana@',
		'@example.org',
		'ana@example',
		'a@b@example.org',
		'a b@example.org',
		'ana@example..org',
		'.ana@example.org',
		'ana.@example.org',
		'ana@-example.org',
		'ana@example.o',
		'ana@10.0.0.1',
		'ana@example.org.',
		'ana(at)example.org',
		'ana@exam_ple.org',
		`${'a'.repeat(65)}@example.org`,
		`ana@${'b'.repeat(64)}.org`
	])('%s is none', (text) => expect(isEmail(text)).toBe(false));
});

describe('ids that a spreadsheet damaged', () => {
	const nobody = () => false;
	const padded = surveyIds(['00123', '00456', '98765', '07000']);
	test.each(['1.00E+05', '1E+05', '1,23E+11', '1.5e10'])('%s is a number in powers of ten', (id) => {
		expect(damageOf(id, surveyIds(['A1', 'B2']), nobody)?.why).toMatch(/powers of ten/);
	});
	test('fewer digits than the ones with zeros in front', () => {
		expect(damageOf('123', padded, nobody)?.likely).toBe('00123');
		expect(damageOf('98765', padded, nobody)).toBeUndefined();
		expect(damageOf('00123', padded, nobody)).toBeUndefined();
		expect(damageOf('E12', padded, nobody)).toBeUndefined();
	});
	test('no zeros in the column, no damage', () => {
		expect(damageOf('123', surveyIds(['123', '4567']), nobody)).toBeUndefined();
	});
	test('ids with zeros of different lengths prove no length', () => {
		expect(damageOf('5', surveyIds(['007', '00012', '0001', '5']), nobody)).toBeUndefined();
	});
	test('known only with zeros in front, even when the whole column lost them', () => {
		const isKnown = (id: string) => id === '00123';
		expect(damageOf('123', surveyIds(['123', '456']), isKnown)?.likely).toBe('00123');
		expect(damageOf('456', surveyIds(['123', '456']), isKnown)).toBeUndefined();
	});
	test('decimals, and dates made of two numbers', () => {
		expect(damageOf('1001.0', surveyIds(['1001.0', '1002.0']), nobody)?.likely).toBe('1001');
		expect(
			damageOf('12-Oct', surveyIds(['10-11', '10-14', '10-13', '10-15', '10-16', '12-Oct']), nobody)
		).toBeDefined();
		expect(damageOf('MAI-12', surveyIds(['MAI-12', 'MAI-13']), nobody)).toBeUndefined();
	});
	test('an id of letters and digits that only looks like a power of ten is none', () => {
		expect(damageOf('12E4', surveyIds(['12E4', '13A1']), nobody)).toBeUndefined();
	});
});

describe('names', () => {
	test('are turned where the whole column is written so, or the header says so', () => {
		expect(areLastFirst(['Ruiz, Ana', 'Ode, Ben', 'Kaya, Cem'], false)).toBe(true);
		expect(areLastFirst(['Ruiz, Ana', 'Ode, Ben'], false)).toBe(false);
		expect(areLastFirst(['Ruiz, Ana'], true)).toBe(true);
		expect(areLastFirst(['Ruiz, Ana', 'Ben Ode', 'Cem Kaya'], false)).toBe(false);
		expect(turnedName('van der Berg, Jan')).toBe('Jan van der Berg');
	});
	test('with a comma before a suffix are kept', () => {
		expect(['Ana Ruiz, Jr.', 'Ana Ruiz, PhD', 'Ana', 'a, b, c'].map(turnedName)).toEqual([
			'Ana Ruiz, Jr.',
			'Ana Ruiz, PhD',
			'Ana',
			'a, b, c'
		]);
	});
});
