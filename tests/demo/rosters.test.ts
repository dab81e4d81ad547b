import { describe, expect, it } from 'vitest';
import { importRoster } from '$lib/core/roster/import-roster';
import type { RosterAnswer } from '$lib/core/roster/roster-answer';
import { demoBytes, demoRollout } from './support/demo-files';
import { quoted, tableRows } from './support/readme';

const larkfen = demoRollout(demoBytes('larkfen-cold-store.json'));
const kilnYard = demoRollout(demoBytes('tutorial-kiln-yard.json'));

function read(file: string, into?: typeof larkfen): RosterAnswer {
	const answer = importRoster(demoBytes(file), { into });
	if (!answer.ok) throw new Error(JSON.stringify(answer.faults));
	return answer.value;
}

/** What a table of the README tells of changes, as `toldChanges` writes an answer's. */
function changesTold(heading: string): string[] {
	return tableRows(heading, 'Person').flatMap(([people, change, happened]) => {
		const fields = change === 'moved' ? ` ${(happened ?? '').split(': ')[1] ?? ''}` : '';
		return quoted(people).map((person) => `${person} ${change}${fields}`);
	});
}

function changesOf({ changes }: RosterAnswer): string[] {
	return [
		...changes.joined.map((person) => `${person} joined`),
		...changes.moved.map(({ person, fields }) => `${person} moved ${Object.keys(fields).sort().join(', ')}`),
		...changes.left.map((person) => `${person} left`)
	];
}

describe('HR’s list in windows-1252', () => {
	const answer = read('larkfen-hr-export.csv', larkfen);

	it('is recognized for what it is', () => {
		expect([answer.encoding, answer.delimiter]).toEqual(['windows-1252', ';']);
		const fields = Object.fromEntries(answer.columns.map(({ header, field }) => [header, field]));
		expect(fields).toEqual({
			'Employee No.': 'id',
			Name: 'name',
			Department: 'department',
			'Job title': 'job',
			'E-mail': 'email',
			'Hire date': 'startsOn',
			'Last day': 'leavesOn',
			'Shift code': 'shiftPattern',
			Language: 'language',
			'Ext.': null
		});
	});

	it('has the problems that the README tells, and no other', () => {
		const told = tableRows('HR', 'Row').map(([row, code]) => `${row} ${quoted(code).join()}`);
		expect(answer.problems.map(({ row, code }) => `${row} ${code}`)).toEqual(told);
	});

	it('gives the people of the document, but for the row held back and the two slips', () => {
		expect(answer.people).toHaveLength(239);
		const { joined, moved, left, unchanged } = answer.changes;
		expect([joined, left]).toEqual([[], []]);
		expect(moved.map(({ person, fields }) => [person, Object.keys(fields)])).toEqual([
			['00368', ['department']],
			['00327', ['job']]
		]);
		expect(unchanged).toHaveLength(237);
	});

	it('keeps leading zeros, turns names, reads accents and month-first dates', () => {
		// 12/22/2025 can only be month first (V-CSV-01 for the number: it is text).
		const byId = new Map(answer.people.map((person) => [person.id, person]));
		expect(byId.get('01042')).toMatchObject({
			name: 'Jolanta Bielak',
			startsOn: '2025-12-22',
			shiftPattern: 'EVENING'
		});
		expect(byId.get('00106')).toMatchObject({ name: 'Fermín Bañuelos', startsOn: '2009-10-05' });
		expect(byId.get('00587')).toMatchObject({ name: 'Suryanti' });
	});
});

describe('HR’s list of the next week', () => {
	const answer = read('larkfen-hr-week-48.csv', larkfen);

	it('changes what the README tells, and nothing else', () => {
		expect(changesOf(answer).sort()).toEqual(changesTold('HR').sort());
	});

	it('has the person who was entered twice, and no other problem', () => {
		expect(answer.problems.map(({ code, value }) => `${code} ${value}`)).toEqual(['same-person 01404']);
	});

	it('is the same list in UTF-16 with tabs', () => {
		const unicode = read('larkfen-hr-week-48-unicode.txt', larkfen);
		expect([unicode.encoding, unicode.delimiter]).toEqual(['utf-16le', '\t']);
		expect([unicode.people, unicode.changes]).toEqual([answer.people, answer.changes]);
	});
});

describe('the tutorial’s roster', () => {
	it('changes what the README tells, without a problem', () => {
		const answer = read('tutorial-kiln-yard-roster.csv', kilnYard);
		expect(answer.problems).toEqual([]);
		expect(changesOf(answer).sort()).toEqual(changesTold('Ember Lane Kiln Yard').sort());
	});
});

describe('a damaged list', () => {
	it.each(tableRows('Damaged files', 'List'))('%s is taken as the README tells', (file, _happened, told = '') => {
		const answer = importRoster(demoBytes(`damaged/${quoted(file).join()}`));
		expect(answer.ok).toBe(told !== 'refused');
		const problems = answer.ok ? answer.value.problems : [];
		const rows = [...told.matchAll(/\d+/g)].map(([row]) => Number(row));
		expect(problems.map(({ row, code }) => [row, code])).toEqual(rows.map((row) => [row, quoted(told).join()]));
	});
});
