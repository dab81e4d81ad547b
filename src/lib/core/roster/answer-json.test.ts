import { expect, test } from 'vitest';
import { lines, readRoster } from '../../../../tests/support/read-roster';
import { answerJson } from './answer-json';

test.each([0, 1, 1999, 2000, 2001, 5000])('the pieces of a list of %i rows are its JSON', (count) => {
	const rows = Array.from({ length: count }, (_, index) => `${index};Ana "A" Ruiz;31.02.2027;${index % 3 ? 'x' : ''}`);
	const answer = readRoster(lines('Pers.-Nr.;Name;Eintritt;Abteilung', ...rows));
	const pieces = [...answerJson(answer)];
	expect(pieces.join('')).toBe(JSON.stringify(answer));
	expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(1_000_000);
});
