import type { LocalDate } from '../calendar/local-date';
import { faultsOfIssues } from '../document/faults-of-issues';
import type { ReadDocument } from '../document/read';
import { readChanged } from '../document/read-changed';
import { type Fault, fault, pathOf } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { registryOf } from '../kernel/registry';
import { type Result, ok, refused } from '../kernel/result';
import { rulePacks } from '../privacy/packs';
import { findRecordFaults } from '../privacy/record-faults';
import type { Edit, EditsByName, Happened, Placed } from './define-edit';

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
 * parameter that caused it (`$.entry.from`), else at its place in the changed document. `today`: the day at the site, after
 * which nothing can have happened yet; not asked where left out, since the core has no clock.
 */
export function applyEdit(before: ReadDocument, name: string, params: unknown, today?: LocalDate): Result<Change> {
	const edit = edits.get(name);
	if (!edit) {
		const names = [...edits.keys()];
		return refused([fault(['edit'], name, `one of the edits ${names.join(', ')}`, nearestName(name, names))]);
	}
	const parsed = edit.params.safeParse(params);
	if (!parsed.success) return refused(faultsOfIssues(params, parsed.error.issues));
	const early = today === undefined ? [] : faultsOfFuture(edit.happened?.(parsed.data, edits) ?? [], today);
	const applied = edit.apply(before.document, parsed.data, edits);
	if (!applied.ok) return refused([...early, ...applied.faults]);
	if (early.length > 0) return refused(early);
	const after = readChanged(before, applied.value, { regimes: rulePacks.keys() });
	// An import is taken as it is: what is doubtful in it is told by findings, not refused.
	const doubtful = name === 'replace-document' ? [] : findRecordFaults(before.document, applied.value, today ?? null);
	if (!after.ok || doubtful.length > 0) {
		const placed = edit.placed?.(parsed.data, applied.value, edits) ?? [];
		const moved = [...(after.ok ? [] : after.faults), ...doubtful].map((one) => movedFault(one, placed));
		return refused([...new Map(moved.map((one) => [one.message, one])).values()] as typeof moved);
	}
	return ok({
		...after.value,
		what: edit.describe(parsed.data, before.document),
		params: edit.remember ? edit.remember(parsed.data) : parsed.data
	});
}

function faultsOfFuture(dates: readonly Happened[], today: LocalDate): Fault[] {
	return dates
		.filter(({ on }) => on > today)
		.map(({ param, on, what }) =>
			fault(param, on, `${today} or earlier: ${what} cannot lie in the future, and it is ${today} at the site`)
		);
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
