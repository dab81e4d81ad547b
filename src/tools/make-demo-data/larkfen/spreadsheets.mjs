import { csvText, utf16, utf8, utf8WithMark, windows1252 } from '../csv-text.mjs';
import { areas, controllers, doors, readers } from './building.mjs';
import { members, tagged } from './people.mjs';

/** The spreadsheets that Larkfen Cold Store came from: HR's lists as they were sent, and the installer's list of doors. */

/** @typedef {import('./people.mjs').Member} Member */

const hrHeader = 'Employee No.;Name;Department;Job title;E-mail;Hire date;Last day;Shift code;Language;Ext.'.split(';');
const rowsOnPageOne = 120;

/** As HR's system prints dates: month first. @param {string | null} date */
function monthFirst(date) {
	return date === null ? '' : date.replace(/^(\d+)-(\d+)-(\d+)$/, '$2/$3/$1');
}

/** By department, then family name, as the list is printed. */
function inPrintOrder() {
	/** @param {Member} member */
	const key = ({ person, family }) => `${person.department} ${family} ${person.id}`;
	return [...members].sort((one, other) => (key(one) < key(other) ? -1 : 1));
}

/** @param {Member} member @param {number} index */
function hrRow({ given, family, person }, index) {
	return [
		person.id,
		given === '' ? family : `${family}, ${given}`,
		person.department,
		person.job,
		person.email ?? '',
		monthFirst(person.startsOn),
		monthFirst(person.leavesOn),
		person.shiftPattern ?? '',
		person.language,
		index % 5 === 0 ? `x${200 + index}` : ''
	];
}

/**
 * The nth person of a department, in the order of staff numbers.
 * @param {string} department
 * @param {number} skip
 */
function idOf(department, skip) {
	return members.filter(({ person }) => person.department === department)[skip]?.person.id ?? '';
}

/** What people did to the list before they sent it. @param {string[][]} rows */
function soil(rows) {
	/** @param {string} id @param {number} column @param {(cell: string) => string} change */
	const touch = (id, column, change) => {
		const row = rows.find((one) => one[0] === id);
		if (row) row[column] = change(row[column] ?? '');
	};
	const noBreak = '\u00a0';
	touch(idOf('Picking', 0), 1, (cell) => cell.replace(', ', `,${noBreak}`));
	touch(idOf('Office', 2), 1, (cell) => `${noBreak}${cell}`);
	for (const skip of [3, 8, 21]) touch(idOf('Packing', skip), 2, (cell) => `${cell}  `);
	touch(idOf('Dock', 5), 3, (cell) => `${cell} `);
	touch(idOf('Picking', 12), 3, (cell) => `=PROPER("${cell.toLowerCase()}")`);
	touch(idOf('Packing', 12), 2, () => 'Pakcing');
	touch(idOf('Night crew', 9), 7, () => 'NIGTH');
	touch(idOf('Dock', 14), 5, (cell) => cell.replace(/^..\/../, '02/30'));
	touch(idOf('Office', 6), 4, (cell) => cell.replace('.example', ',example'));
	// The same number once more, at the end: an older row that was pasted back.
	const second = rows.find((one) => one[0] === idOf('Cleaning', 4)) ?? [];
	rows.push(second.map((cell, column) => (column === 3 ? 'Canteen help' : cell)));
	// Sorted in a spreadsheet program that took one number for a number.
	touch(idOf('Picking', 20), 0, (cell) => cell.replace(/^0+/, ''));
	return rows;
}

/** The list of 16 November 2026: windows-1252, semicolons, title lines, a second page, a total. */
export function hrExport() {
	const rows = soil(inPrintOrder().map(hrRow));
	const titles = [
		['Larkfen Cold Store – employee master list', ...Array.from({ length: 9 }, () => '')],
		['Printed 11/16/2026 07:42', 'Confidential'],
		['']
	];
	const total = ['Total', `${members.length}`, ...Array.from({ length: 8 }, () => '')];
	const records = [
		...titles,
		hrHeader,
		...rows.slice(0, rowsOnPageOne),
		hrHeader,
		...rows.slice(rowsOnPageOne),
		total,
		[''],
		['']
	];
	return windows1252(csvText(records, ';'));
}

/** Joiners of the week of 23 November 2026, with letters that windows-1252 does not have. */
const joiners = [
	[
		'01401',
		'Zieliński',
		'Łukasz',
		'Dock',
		'Loader',
		'lukasz.zielinski@larkfen.example',
		'2026-11-30',
		'',
		'LATE',
		'pl'
	],
	['01402', 'Dąbek', 'Małgorzata', 'Packing', 'Packer', '', '2026-11-30', '', 'SWAP-A', 'pl'],
	['01405', 'Stanić', 'Đurđa', 'Night crew', 'Night picker', '', '2026-12-07', '', 'NIGHT', 'en']
];

/** Somebody whom HR entered anew instead of changing the contract: another number, everything else the same. */
function enteredTwice() {
	const id = idOf('Dock', 3);
	const rows = weekRows(members.filter(({ person }) => person.id === id));
	return rows.map((cells) => ['01404', ...cells.slice(1)]);
}

/** Who changed since the list of the week before: column by staff number. */
function weekChanges() {
	/** @type {Map<string, Partial<Record<'department' | 'job' | 'family' | 'leaves', string>>>} */
	const changes = new Map();
	for (const { id } of tagged('moved-to-nights')) changes.set(id, { department: 'Night crew', job: 'Night loader' });
	changes.set(idOf('Packing', 30), { family: 'Barragán-Ortega' });
	changes.set(idOf('Picking', 17), { job: 'Picking lead' });
	changes.set(idOf('Picking', 40), { leaves: '2026-12-31' });
	return changes;
}

/** @param {readonly Member[]} list */
function weekRows(list) {
	const changes = weekChanges();
	return list.map(({ given, family, person }) => {
		const change = changes.get(person.id) ?? {};
		return [
			person.id,
			change.family ?? family,
			given,
			change.department ?? person.department,
			change.job ?? person.job,
			person.email ?? '',
			person.startsOn,
			change.leaves ?? person.leavesOn ?? '',
			person.shiftPattern ?? '',
			person.language
		];
	});
}

/** The records of the week of 23 November 2026: everybody but the two guards who have gone, and the joiners. */
function weekRecords() {
	const stay = members.filter(({ tag }) => tag !== 'former-guard' && tag !== 'held-guard');
	const header =
		'Employee No.,Last name,First name,Department,Job title,E-mail,Hire date,Last day,Shift code,Language'.split(',');
	return [header, ...weekRows(stay), ...joiners, ...enteredTwice()];
}

/** The week's list as comma-separated UTF-8 with a byte order mark. */
export function weekExport() {
	return utf8WithMark(csvText(weekRecords(), ','));
}

/** The same list as a spreadsheet program saves "Unicode text": UTF-16, tabs. */
export function weekUnicode() {
	return utf16(csvText(weekRecords(), '\t'));
}

/** The installer's list of doors: what the building in the document was entered from. */
export function doorList() {
	/** @param {string} id */
	const areaName = (id) => areas().find((area) => area.id === id)?.name ?? id;
	const rows = doors().map((door, index) => {
		const reader = readers().find((one) => one.door === door.id);
		const cabinet = controllers().find((one) => one.id === door.controller);
		const remark = door.exit === 'reader' ? 'second reader inside; free egress to be agreed' : '';
		const [from, to] = [areaName(door.from), areaName(door.to)];
		return [
			`${index + 1}`,
			door.name,
			from,
			to,
			cabinet?.name ?? '',
			reader?.module ?? '',
			`${reader?.milliamps ?? ''}`,
			remark
		];
	});
	const header = ['No.', 'Door', 'From', 'To', 'Cabinet', 'Module', 'Reader mA', 'Remark'];
	const pump = [
		'17',
		'Pump room door',
		'Loading dock',
		'Sprinkler pump room',
		'',
		'',
		'',
		'locked on the day of the survey, no reader noted'
	];
	return utf8(csvText([header, ...rows, pump], ','));
}
