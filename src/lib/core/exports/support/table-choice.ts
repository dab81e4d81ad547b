import { z } from 'zod';
import { type Fault, fault } from '../../kernel/fault';
import { nearestName } from '../../kernel/nearest';
import { type Result, ok, refused } from '../../kernel/result';
import type { List, ListInput } from '../lists/define-list';

/** How the columns of a text file are parted. */
export const delimiters = { comma: ',', semicolon: ';', tab: '\t', pipe: '|' } as const;

export type Delimiter = keyof typeof delimiters;

/** Which columns of a list are taken out, in which order, and how they are written. */
export const tableChoice = z.object({
	columns: z
		.array(z.string())
		.describe('Keys of the columns, in their order; those of the list where left out')
		.optional(),
	format: z.enum(['csv', 'xlsx']).describe('csv (text) or xlsx (a workbook)').default('csv'),
	delimiter: z
		.enum(['comma', 'semicolon', 'tab', 'pipe'])
		.describe('What parts the columns of a csv: comma, semicolon, tab or pipe')
		.default('comma')
});

export type TableChoice = z.output<typeof tableChoice>;

/** A choice that holds for a list: every key is one of its columns, each once, and there is at least one. */
export interface HeldChoice extends TableChoice {
	readonly columns: string[];
}

/** The columns that a list has before somebody chooses. */
export function firstColumns(list: List, input: ListInput): string[] {
	return list
		.offered(input)
		.filter(({ isExtra }) => isExtra !== true)
		.map(({ key }) => key);
}

/** Holds a choice against a list. Refused are keys that no column has, keys that stand twice, and no column at all. */
export function heldChoice(list: List, input: ListInput, choice: TableChoice): Result<HeldChoice> {
	const { columns = firstColumns(list, input) } = choice;
	const known = list.offered(input).map(({ key }) => key);
	const faults: Fault[] = columns.flatMap((key, place) => {
		if (!known.includes(key)) {
			return fault(['columns', place], key, `one of the columns ${known.join(', ')}`, nearestName(key, known));
		}
		return columns.indexOf(key) < place ? fault(['columns', place], key, 'each column once') : [];
	});
	if (columns.length === 0) faults.push(fault(['columns'], columns, 'at least one column'));
	return faults.length > 0 ? refused(faults) : ok({ ...choice, columns });
}

/** A remembered choice without the columns that the document no longer has; the first columns where none is left. */
export function stillHeld(list: List, input: ListInput, choice: TableChoice): HeldChoice {
	const known = new Set(list.offered(input).map(({ key }) => key));
	const columns = [...new Set(choice.columns ?? [])].filter((key) => known.has(key));
	return { ...choice, columns: columns.length > 0 ? columns : firstColumns(list, input) };
}
