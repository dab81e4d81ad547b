import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';
import type { LocalDate } from '../../src/lib/core/calendar/local-date';
import { applyEdit } from '../../src/lib/core/edits';
import { importRoster } from '../../src/lib/core/roster/import-roster';
import { takingOver } from '../../src/lib/core/roster/taking-over';
import { bytesOf } from '../support/read-roster';

// A month of weekly lists against a ledger that is kept here, with plain loops, by whoever makes the lists: it knows who joined,
// moved and left, and never looks at what the intake says.

interface Row {
	id: string;
	name: string;
	department: string;
	start: string;
	last: string | null;
	isListed: boolean;
}

const departments = ['Dock', 'Office', 'Cold store'];
const given = ['Ana', 'Ben', 'Chloé', 'Łukasz', 'Jörg', 'Émile'];
const family = ['Ruiz', 'van der Berg', "O'Neil", 'Müller', 'Kaya', 'Ng'];

/** How the office writes the list of a week: another program, another habit. */
const habit = fc.record({
	encoding: fc.constantFrom('utf8', 'utf16le', 'utf8-bom'),
	delimiter: fc.constantFrom(';', '\t', ','),
	end: fc.constantFrom('\r\n', '\n'),
	isQuoted: fc.boolean(),
	isTitled: fc.boolean(),
	order: fc.constantFrom(1, -1)
});
type Habit = typeof habit extends fc.Arbitrary<infer T> ? T : never;
const week = fc.record({
	joins: fc.integer({ min: 0, max: 3 }),
	moves: fc.array(fc.nat(), { maxLength: 3 }),
	leaves: fc.array(fc.nat(), { maxLength: 2 }),
	returns: fc.boolean(),
	habit
});

test('four weekly lists of joiners, movers and leavers lead to the people that a ledger has', () => {
	fc.assert(
		fc.property(fc.array(week, { minLength: 4, maxLength: 4 }), (weeks) => {
			const ledger: Row[] = [];
			let state = readRolloutValue({
				format: 'doorwright.rollout',
				version: 1,
				site: { name: 'Larkfen', timeZone: 'America/Chicago' },
				horizon: { from: '2027-01-04', until: '2027-12-31' }
			});
			const join = (): void => {
				const number = ledger.length;
				const start = `2026-${String(1 + (number % 12)).padStart(2, '0')}-${String(1 + (number % 28)).padStart(2, '0')}`;
				const name = `${given[number % 6] ?? ''} ${family[Math.floor(number / 6) % 6] ?? ''} ${'I'.repeat(1 + Math.floor(number / 36))}`;
				ledger.push({
					id: String(number).padStart(5, '0'),
					name,
					department: departments[number % 3] ?? '',
					start,
					last: null,
					isListed: true
				});
			};
			for (let count = 0; count < 20; count++) join();
			for (const [index, { joins, moves, leaves, returns, habit: written }] of weeks.entries()) {
				const sunday = `2027-01-${String(10 + index * 7).padStart(2, '0')}`;
				const before = new Map(ledger.map((row) => [row.id, { ...row }]));
				const known = index === 0 ? new Set<string>() : new Set(before.keys());
				if (index > 0) {
					for (let count = 0; count < joins; count++) join();
					const back = returns ? ledger.find((row) => !row.isListed) : undefined;
					// Who leaves is moved no more: the list no longer says where they were.
					for (const pick of leaves) {
						const row = ledger[pick % 20];
						if (row?.isListed && row !== back) [row.isListed, row.last] = [false, sunday];
					}
					for (const pick of moves) {
						const row = ledger[pick % 20];
						if (row?.isListed) row.department = departments[(departments.indexOf(row.department) + 1) % 3] ?? '';
					}
					if (back) [back.isListed, back.last] = [true, null];
				}
				if (!state.ok) throw new Error('the document is refused');
				const answer = importRoster(fileOf(ledger, written), { into: state.value.rollout });
				if (!answer.ok) throw new Error(answer.faults.map(({ message }) => message).join('\n'));
				expect(answer.value.problems).toEqual([]);
				const { joined, moved, left, unchanged } = answer.value.changes;
				const listed = ledger.filter((row) => row.isListed);
				const isMoved = (row: Row): boolean => {
					const old = before.get(row.id);
					return old?.department !== row.department || old.last !== row.last;
				};
				const ids = (rows: readonly Row[]): string[] => rows.map(({ id }) => id).sort();
				expect([...joined].sort()).toEqual(ids(listed.filter(({ id }) => !known.has(id))));
				expect(moved.map(({ person }) => person).sort()).toEqual(
					ids(listed.filter((row) => known.has(row.id) && isMoved(row)))
				);
				expect([...unchanged].sort()).toEqual(ids(listed.filter((row) => known.has(row.id) && !isMoved(row))));
				expect([...left].sort()).toEqual(ids(ledger.filter((row) => known.has(row.id) && !row.isListed)));
				state = applyEdit(state.value, 'apply-roster', takingOver(answer.value, { leavesOn: sunday as LocalDate }));
				if (!state.ok) throw new Error(state.faults.map(({ message }) => message).join('\n'));
				const people = state.value.rollout.people.map(({ id, name, department, startsOn, leavesOn }) => [
					id,
					name,
					department,
					startsOn,
					leavesOn
				]);
				expect(people.sort()).toEqual(
					ledger.map((row) => [row.id, row.name, row.department, row.start, row.last]).sort()
				);
			}
		}),
		{ numRuns: 40 }
	);
});

function fileOf(ledger: readonly Row[], { encoding, delimiter, end, isQuoted, isTitled, order }: Habit): Uint8Array {
	const cell = (text: string): string => (isQuoted || text.includes(delimiter) ? `"${text}"` : text);
	const record = (...cells: string[]): string => cells.map(cell).join(delimiter);
	const rows = ledger
		.filter((row) => row.isListed)
		.map((row) => record(row.id, row.name, row.department, row.start, row.last ?? ''))
		.sort((a, b) => order * (a < b ? -1 : 1));
	const text = [
		...(isTitled ? ['Staff of the week', ''] : []),
		record('Staff no', 'Name', 'Department', 'Start date', 'Last day'),
		...rows,
		''
	].join(end);
	if (encoding === 'utf16le') return bytesOf(`\ufeff${text}`, 'utf16le');
	return bytesOf(encoding === 'utf8-bom' ? `\ufeff${text}` : text);
}
