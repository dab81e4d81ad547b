import iconv from 'iconv-lite';
import { type ImportOptions, importRoster } from '../../src/lib/core/roster/import-roster';
import type { RosterAnswer } from '../../src/lib/core/roster/roster-answer';

/** Records as a file has them, each with its line end. */
export function lines(...all: string[]): string {
	return `${all.join('\r\n')}\r\n`;
}

/** Text in an encoding, by any name that iconv knows. */
export function bytesOf(text: string, encoding = 'utf8'): Uint8Array {
	return new Uint8Array(iconv.encode(text, encoding));
}

/** What a roster that is not refused says. */
export function readRoster(text: string, options: ImportOptions = {}, encoding = 'utf8'): RosterAnswer {
	const result = importRoster(bytesOf(text, encoding), options);
	if (!result.ok) throw new Error(result.faults.map(({ message }) => message).join('\n'));
	return result.value;
}

/** What was told, as `row code column`. */
export function told(answer: RosterAnswer): string[] {
	return answer.problems.map(({ row, code, column }) => `${row} ${code} ${column ?? '-'}`);
}

/** The fields that the columns were taken for. */
export function fieldsOf({ columns }: RosterAnswer) {
	return columns.map(({ field }) => field);
}
