import { demoBytes } from './demo-files';

/** What the README of the demo data tells, read from its tables so that it cannot say what is not so. */

const lines = new TextDecoder().decode(demoBytes('README.md')).split('\n');

/** The rows of every table below a heading (of any depth, to the next heading) that starts with a given column. */
export function tableRows(heading: string, firstColumn: string): string[][] {
	const start = lines.findIndex((line) => /^#+ /.test(line) && line.includes(heading));
	if (start < 0) throw new Error(`the README has no heading ${heading}`);
	const length = lines.slice(start + 1).findIndex((line) => /^#+ /.test(line));
	const section = lines.slice(start + 1, length < 0 ? undefined : start + 1 + length);
	const rows: string[][] = [];
	let inTable = false;
	for (const line of section) {
		if (!line.startsWith('|')) inTable = false;
		else if (line.startsWith(`| ${firstColumn} |`)) inTable = true;
		else if (inTable && !line.startsWith('|--')) rows.push(cellsOf(line));
	}
	if (rows.length === 0) throw new Error(`the README has no table of ${firstColumn} below ${heading}`);
	return rows;
}

/** What stands between backticks in a cell. */
export function quoted(cell: string | undefined): string[] {
	return [...(cell ?? '').matchAll(/`([^`]*)`/g)].map((match) => match[1] ?? '');
}

function cellsOf(line: string): string[] {
	return line
		.split('|')
		.slice(1, -1)
		.map((cell) => cell.trim());
}

/** A finding as the README writes it: its code, its subject, and the edit that mends it. */
export interface ToldFinding {
	/** `code key=value key=value`, as `toldAs` writes a finding. */
	readonly told: string;
	readonly edit: string | null;
}

/** The findings told below a heading, one for each subject. */
export function toldFindings(heading: string): ToldFinding[] {
	return tableRows(heading, 'Finding').flatMap(([code, subjects, , edit]) =>
		quoted(subjects).map((subject) => ({
			told: `${quoted(code).join()} ${subject}`,
			edit: quoted(edit)[0] ?? null
		}))
	);
}

/** A finding in the words of the README; one of a missing holiday has nothing but its date to tell it by. */
export function toldAs(finding: { code: string; subject: Record<string, string | string[]>; dates: string[] }): string {
	const parts = Object.entries(finding.subject).map(([key, value]) => `${key}=${String(value)}`);
	const subject = parts.length === 0 ? '{}' : parts.join(' ');
	const date = finding.code === 'holiday-missing' ? ` ${finding.dates.join()}` : '';
	return `${finding.code} ${subject}${date}`;
}
