import { faultsOfIssues } from '../document/faults-of-issues';
import type { ReadDocument } from '../document/read';
import { readChanged } from '../document/read-changed';
import { type Fault, fault, pathOf } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { registryOf } from '../kernel/registry';
import { type Result, ok, refused } from '../kernel/result';
import { rulePacks } from '../privacy/packs';
import type { Edit, EditsByName, Placed } from './define-edit';

/** Every edit by its name. */
export const edits: EditsByName = registryOf(
	import.meta.glob<{ default: Edit<unknown> }>(['./*.ts', '!./*.test.ts', '!./index.ts', '!./define-edit.ts'], {
		eager: true
	}),
	(edit) => edit.name
);

/** A change that was made: the state after it, and what the change record says of it. */
export interface Change extends ReadDocument {
	/** What was done, as a sentence without a stop. */
	readonly what: string;
	/** What the change record keeps of the parameters. */
	readonly params: unknown;
}

/**
 * Makes a change to a document. Refuses with every fault: an unknown edit, parameters of the wrong shape, what the edit
 * itself refuses, and whatever would make the changed document one that cannot be read. A fault is told at the
 * parameter that caused it (`$.entry.from`), else at its place in the changed document.
 */
export function applyEdit(before: ReadDocument, name: string, params: unknown): Result<Change> {
	const edit = edits.get(name);
	if (!edit) {
		const names = [...edits.keys()];
		return refused([fault(['edit'], name, `one of the edits ${names.join(', ')}`, nearestName(name, names))]);
	}
	const parsed = edit.params.safeParse(params);
	if (!parsed.success) return refused(faultsOfIssues(params, parsed.error.issues));
	const applied = edit.apply(before.document, parsed.data, edits);
	if (!applied.ok) return applied;
	const after = readChanged(before, applied.value, { regimes: rulePacks.keys() });
	if (!after.ok) {
		const placed = edit.placed?.(parsed.data, applied.value, edits) ?? [];
		return refused(after.faults.map((one) => movedFault(one, placed)));
	}
	return ok({
		...after.value,
		what: edit.describe(parsed.data, before.document),
		params: edit.remember ? edit.remember(parsed.data) : parsed.data
	});
}

/** A fault in the changed document, told at the parameter from which the faulty value came. */
function movedFault(one: Fault, placed: readonly Placed[]): Fault {
	for (const { param, at } of placed) {
		const [from, to] = [pathOf(at), pathOf(param)];
		if (one.path !== from && !one.path.startsWith(`${from}.`) && !one.path.startsWith(`${from}[`)) continue;
		const path = to + one.path.slice(from.length);
		return {
			...one,
			path,
			message: one.message.startsWith(one.path) ? path + one.message.slice(one.path.length) : one.message
		};
	}
	return one;
}
