import { counted } from '../lib/core/document/names';
import type { Rollout } from '../lib/core/document/schema';
import { textTable } from '../lib/core/kernel/text-table';
import type { RosterAnswer } from '../lib/core/roster/roster-answer';

const mostProblems = 30;
const mostIds = 12;

/** What a roster says, for a person at a terminal: columns, people, problems, what would change. */
export function rosterText(answer: RosterAnswer, into: Rollout | undefined): string {
	const { people, problems } = answer;
	const found = `${counted(people.length, 'person', 'people')}; ${originText(answer)}.`;
	return [
		found,
		columnsText(answer),
		...(into === undefined ? [] : [changesText(answer)]),
		problems.length === 0 ? 'No problem found.' : problemsText(answer),
		'Nothing was changed: take the list over in the app.'
	].join('\n\n');
}

function originText(answer: RosterAnswer): string {
	if (answer.sheet === undefined)
		return `encoding ${answer.encoding}, cells parted by ${shownDelimiter(answer.delimiter)}`;
	const others = answer.sheets.filter(({ name, rows }) => rows > 0 && name !== answer.sheet);
	const named = others.map(({ name, rows }) => `${JSON.stringify(name)} (${counted(rows, 'row')})`).join(', ');
	return `sheet ${JSON.stringify(answer.sheet)}${named === '' ? '' : `; other lists of people in the workbook: ${named}`}`;
}

function shownDelimiter(delimiter: string): string {
	return delimiter === '\t' ? 'tabs' : JSON.stringify(delimiter);
}

function columnsText({ columns }: RosterAnswer): string {
	return textTable(
		[{ heading: 'column' }, { heading: 'taken as' }, { heading: 'sure', isFigure: true }],
		columns.map(({ header, field, sure }) => [
			header,
			field ?? 'not used',
			field === null ? '' : `${Math.round(sure * 100)} %`
		])
	);
}

function changesText({ changes }: RosterAnswer): string {
	const { joined, moved, left, unchanged } = changes;
	const lines = moved.slice(0, mostIds).map(
		({ person, fields }) =>
			`  ${person}: ${Object.entries(fields)
				.map(([field, change]) => fieldText(field, change))
				.join('; ')}`
	);
	return [
		`joined: ${listText(joined)}`,
		`left: ${listText(left)}`,
		`unchanged: ${unchanged.length}`,
		`moved: ${moved.length}`,
		...lines,
		...(moved.length > lines.length ? [`  … and ${moved.length - lines.length} more; --json lists all`] : [])
	].join('\n');
}

function fieldText(field: string, [before, after]: readonly [unknown, unknown]): string {
	return `${field} ${JSON.stringify(before)} to ${JSON.stringify(after)}`;
}

function listText(ids: readonly string[]): string {
	const more = ids.length > mostIds ? `, and ${ids.length - mostIds} more` : '';
	return ids.length === 0 ? '0' : `${ids.length} (${ids.slice(0, mostIds).join(', ')}${more})`;
}

function problemsText({ problems }: RosterAnswer): string {
	const lines = problems.slice(0, mostProblems).map(({ row, column, code, message }) => {
		const place = [`row ${row}`, ...(column === null ? [] : [`column ${column}`])];
		return `  ${[...place, code].join(', ')}: ${message}`;
	});
	const more = problems.length - lines.length;
	return [
		`${counted(problems.length, 'problem')}:`,
		...lines,
		...(more > 0 ? [`  … and ${more} more; --json lists all`] : [])
	].join('\n');
}
