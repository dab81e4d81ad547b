import { z } from 'zod';
import type { Correction } from '$lib/core/roster/corrections';
import { type Choice, type RosterConflict, conflictKey } from '$lib/core/roster/origins';
import type { SaidOfList } from '$lib/server/roster-preview';
import { isTicked, textIn } from './forms';

/** Reading the forms of the roster sheet. What they say is judged when the list is read. */

/** The file that was chosen, or else the range that was pasted; undefined where there is neither. */
export async function listIn(form: FormData): Promise<{ name: string; bytes: Uint8Array } | undefined> {
	const file = form.get('roster');
	if (file instanceof File && file.name !== '') {
		return { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
	}
	const pasted = form.get('pasted');
	if (typeof pasted !== 'string' || pasted.trim() === '') return undefined;
	return { name: 'Pasted range', bytes: new TextEncoder().encode(pasted) };
}

/** What the user said about the list; what was left as recognized is not said. */
export function mapIn(form: FormData): Record<string, unknown> {
	const columns: Record<string, string | null> = {};
	for (const [name, value] of form) {
		if (!name.startsWith('column ') || typeof value !== 'string' || value === 'as recognized') continue;
		columns[name.slice('column '.length)] = value === 'not used' ? null : value;
	}
	const said = {
		columns: Object.keys(columns).length > 0 ? columns : null,
		dateOrder: textIn(form, 'dateOrder'),
		encoding: textIn(form, 'encoding'),
		delimiter: { comma: ',', semicolon: ';', tab: '\t', bar: '|' }[textIn(form, 'delimiter') ?? ''] ?? null,
		sheet: textIn(form, 'sheet')
	};
	return Object.fromEntries(Object.entries(said).filter(([, value]) => value !== null));
}

/**
 * What the user put right: `cell ROW HEADER`, where an empty one is left as it is; and rows of which a box says that they are put
 * anew (`rows`), with all their cells `part ROW INDEX`, or left out (`leaveOut`).
 */
export function correctionsIn(form: FormData): Correction[] {
	const cells = [...form].flatMap(([name, value]): Correction[] => {
		const [, row, column] = /^cell (\d+) ([^]*)$/.exec(name) ?? [];
		if (row === undefined || column === undefined || typeof value !== 'string' || value.trim() === '') return [];
		return [{ row: Number(row), column, value: value.trim() }];
	});
	const rows = rowsIn(form, 'rows').map((row): Correction => {
		const parts: string[] = [];
		for (const [name, value] of form) {
			const [, at] = new RegExp(`^part ${row} (\\d+)$`).exec(name) ?? [];
			if (at !== undefined && typeof value === 'string') parts[Number(at)] = value.trim();
		}
		return { row, cells: Array.from(parts, (part: string | undefined) => part ?? '') };
	});
	return [...cells, ...rows, ...rowsIn(form, 'leaveOut').map((row): Correction => ({ row, isLeftOut: true }))];
}

function rowsIn(form: FormData, name: string): number[] {
	return form
		.getAll(name)
		.flatMap((value) => (typeof value === 'string' && /^\d+$/.test(value) ? [Number(value)] : []));
}

/** What is decided about rows that cannot all be right; the value of a radio button, as JSON. */
export const pairDecision = z.union([
	z.strictObject({ leaveOut: z.array(z.number().int().positive()) }),
	z.strictObject({
		number: z.strictObject({ row: z.number().int().positive(), column: z.string(), value: z.string() })
	}),
	z.strictObject({ renumber: z.strictObject({ at: z.string(), to: z.string() }) }),
	z.strictObject({ apart: z.tuple([z.string(), z.string()]) })
]);

export type PairDecision = z.infer<typeof pairDecision>;

/** What was said of a list, with what the form decides about rows that cannot all be right. */
export function withPairsDecided(said: SaidOfList, form: FormData): SaidOfList {
	let next = said;
	for (const [name, value] of form) {
		if (!name.startsWith('pair ') || typeof value !== 'string') continue;
		const parsed = pairDecision.safeParse(jsonOf(value));
		if (parsed.success) next = withPairDecided(next, parsed.data);
	}
	return next;
}

function withPairDecided(said: SaidOfList, decision: PairDecision): SaidOfList {
	if ('leaveOut' in decision) {
		const rows = decision.leaveOut.map((row): Correction => ({ row, isLeftOut: true }));
		return { ...said, corrections: [...said.corrections, ...rows] };
	}
	if ('number' in decision) return { ...said, corrections: [...said.corrections, decision.number] };
	if ('renumber' in decision) return { ...said, renumber: [...said.renumber, decision.renumber] };
	return { ...said, apart: [...said.apart, decision.apart] };
}

function jsonOf(text: string): unknown {
	try {
		return JSON.parse(text) as unknown;
	} catch {
		return undefined;
	}
}

/** What was said of a list, with the choices of the form: one by one (`choice KEY`), or `all` that are open. */
export function withChoices(said: SaidOfList, form: FormData, conflicts: readonly RosterConflict[]): SaidOfList {
	const choices = new Map(said.choices);
	for (const conflict of conflicts) {
		const key = conflictKey(conflict);
		const choice = choiceOf(textIn(form, `choice ${key}`)) ?? choiceOf(textIn(form, 'all'));
		if (choice !== undefined) choices.set(key, choice);
	}
	return { ...said, choices: [...choices] };
}

function choiceOf(text: string | null): Choice | undefined {
	return text === 'here' || text === 'roster' ? text : undefined;
}

/** The last day that the form gives to those who left: undefined where their box is not ticked. */
export function lastDayIn(form: FormData): string | null | undefined {
	return isTicked(form, 'leave') ? textIn(form, 'leavesOn') : undefined;
}
