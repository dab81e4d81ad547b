import { z } from 'zod';
import type { LocalDate } from '../../core/calendar/local-date';
import type { Rollout } from '../../core/document/schema';
import { listsByName } from '../../core/exports/lists';
import type { ListedChange } from '../../core/exports/lists/define-list';
import { workbookOf } from '../../core/exports/support/workbook';
import type { Finding } from '../../core/kernel/finding';
import type { Result } from '../../core/kernel/result';
import type { Work } from '../../core/kernel/work';
import { type PreviewInput, previewOfRollout } from '../roster-preview';

/** Work for a thread that answers no question of a rollout: what it gives is a file, or a list that was read. */
export interface Errand {
	readonly params: z.ZodType;
	run(rollout: Rollout, params: unknown, work: Work): Promise<Result<unknown>> | Result<unknown>;
}

/** What a workbook of a list is made from, beside the rollout. */
export const workbookParams = z.object({
	list: z.string(),
	columns: z.array(z.string()),
	today: z.custom<LocalDate>(),
	findings: z.custom<readonly Finding[]>().optional(),
	changes: z.custom<readonly ListedChange[]>().optional()
});

/** Makes the workbook of a list. Its columns are held against the list before. */
export async function writeWorkbook(
	rollout: Rollout,
	{ list: name, columns: keys, today, findings = [], changes = [] }: z.output<typeof workbookParams>
): Promise<Result<Uint8Array>> {
	const list = listsByName.get(name);
	if (!list) throw new Error(`there is no list ${name}`);
	const input = { rollout, today, findings, changes };
	const byKey = new Map(list.offered(input).map((column) => [column.key, column]));
	const columns = keys.flatMap((key) => byKey.get(key) ?? []);
	return workbookOf(list.title, columns, list.cells(input, keys));
}

/** Every errand by its name; none is named as a question is. */
export const errands: ReadonlyMap<string, Errand> = new Map([
	[
		'write-workbook',
		{ params: workbookParams, run: (rollout, params) => writeWorkbook(rollout, workbookParams.parse(params)) }
	],
	[
		'preview-roster',
		{
			params: z.custom<PreviewInput>(),
			run: (rollout, params, work) => previewOfRollout(rollout, params as PreviewInput, work)
		}
	]
]);
