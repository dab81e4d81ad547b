import { z } from 'zod';
import { faultsOfIssues } from '../document/faults-of-issues';
import { fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import { encodingLabel } from './decode/decode-roster';
import { columnFields } from './fields';

const orders = ['day-first', 'month-first'] as const;
const keys = ['columns', 'dateOrder', 'encoding', 'delimiter', 'sheet'] as const;
const keyed = `one of the keys ${keys.join(', ')}`;

/**
 * What a person says about a roster, overruling what is recognized: what a column holds, by its header (null: nothing
 * that is used), in which order dates are written, the encoding (any label of WHATWG Encoding, and those of iconv), the
 * character between cells, and the sheet of a workbook (a list in plain text has one sheet, whatever its name).
 */
export const rosterMapSchema = z.strictObject(
	{
		columns: z
			.record(
				z.string(),
				z.union([z.enum(columnFields), z.null()], { error: `one of the fields ${columnFields.join(', ')}, or null` }),
				{ error: 'an object with a field, or null, for each header' }
			)
			.nullish(),
		dateOrder: z.enum(orders, { error: `one of ${orders.join(', ')}` }).nullish(),
		encoding: z
			.string({ error: 'the name of an encoding, like windows-1252' })
			.refine((name) => encodingLabel(name) !== undefined, { error: 'the name of an encoding, like windows-1252' })
			.transform((name) => encodingLabel(name))
			.nullish(),
		delimiter: z
			.string({ error: 'the one character between cells' })
			.refine((text) => /^[^"\r\n]$/u.test(text), {
				error: 'the one character between cells, no quotation mark and no line end'
			})
			.nullish(),
		sheet: z.string({ error: 'the name of a sheet' }).nullish()
	},
	{
		error: (issue) => (issue.code === 'unrecognized_keys' ? keyed : `an object with any of the keys ${keys.join(', ')}`)
	}
);

export type RosterMap = z.output<typeof rosterMapSchema>;

/**
 * Reads a map. Refuses with every fault: unknown keys and fields, an encoding or delimiter that cannot be, and a field
 * that two columns are said to hold (the name may be spread over several).
 */
export function readRosterMap(value: unknown): Result<RosterMap> {
	if (value === undefined || value === null) return ok({});
	const parsed = rosterMapSchema.safeParse(value);
	if (!parsed.success) return refused(faultsOfIssues(value, parsed.error.issues).map(withNearest));
	const headers = new Map<string, string>();
	const faults = Object.entries(parsed.data.columns ?? {}).flatMap(([header, field]) => {
		if (field === null || field === 'name' || field === 'givenName' || field === 'familyName') return [];
		const other = headers.get(field);
		headers.set(field, header);
		return other === undefined
			? []
			: [
					fault(
						['columns', header],
						field,
						`a field that no other column holds; ${JSON.stringify(other)} holds this one`
					)
				];
	});
	return faults.length > 0 ? refused(faults) : ok(parsed.data);
}

function withNearest<F extends ReturnType<typeof fault>>(one: F): ReturnType<typeof fault> {
	const { value, nearest, path } = one;
	if (typeof value !== 'string' || nearest !== undefined) return one;
	const names = path.startsWith('$.columns') ? columnFields : path === '$.dateOrder' ? orders : undefined;
	const offered = names && nearestName(value, names);
	return offered === undefined
		? one
		: { ...one, nearest: offered, message: `${one.message}; did you mean ${JSON.stringify(offered)}?` };
}
