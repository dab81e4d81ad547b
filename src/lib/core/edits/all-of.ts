import { z } from 'zod';
import { faultsOfIssues } from '../document/faults-of-issues';
import { entry, maybe, words } from '../document/fields';
import type { RolloutDocument } from '../document/schema';
import { type Fault, type PathStep, fault, pathOf } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import { type Edit, type EditsByName, defineEdit } from './define-edit';

const name = 'all-of';

const one = entry({
	edit: z.string({ error: 'the name of an edit' }),
	params: z.unknown().describe('What that edit takes')
});

/** Several edits made as one change: all of them or none, one entry in the record, taken back as one. */
export default defineEdit({
	name,
	summary: 'Makes several edits, one after the other, as one change: all of them or none.',
	params: entry({
		edits: z.array(one, { error: 'a list of edits' }).min(1, { error: 'at least one edit' }),
		what: maybe(words).describe('What is done, for the change record')
	}),
	apply(document, params, others) {
		let changed: Result<RolloutDocument> = ok(document);
		for (let place = 0; place < params.edits.length && changed.ok; place++) {
			const read = readOne(params, place, others);
			if (!read.ok) return read;
			const applied = read.value.edit.apply(changed.value, read.value.params, others);
			changed = applied.ok ? applied : refused(applied.faults.map((found) => moved(found, placeOf(place))));
		}
		return changed;
	},
	placed(params, after, others) {
		return params.edits.flatMap((_, place) => {
			const read = readOne(params, place, others);
			const placed = read.ok ? (read.value.edit.placed?.(read.value.params, after, others) ?? []) : [];
			return placed.map(({ param, at }) => ({ param: [...placeOf(place), ...param], at }));
		});
	},
	happened(params, others) {
		return params.edits.flatMap((_, place) => {
			const read = readOne(params, place, others);
			const dates = read.ok ? (read.value.edit.happened?.(read.value.params, others) ?? []) : [];
			return dates.map((one) => ({ ...one, param: [...placeOf(place), ...one.param] }));
		});
	},
	describe: ({ edits, what }) => what ?? `${edits.length} changes together: ${edits.map(({ edit }) => edit).join(', ')}`
});

interface ReadEdit {
	readonly edit: Edit<unknown>;
	readonly params: unknown;
}

function readOne(
	params: { readonly edits: readonly { readonly edit: string; readonly params?: unknown }[] },
	place: number,
	others: EditsByName
): Result<ReadEdit> {
	const asked = params.edits[place];
	const edit = asked?.edit === name ? undefined : others.get(asked?.edit ?? '');
	if (!asked || !edit) {
		const names = [...others.keys()].filter((other) => other !== name);
		const nearest = nearestName(asked?.edit ?? '', names);
		return refused([fault(['edits', place, 'edit'], asked?.edit, `one of the edits ${names.join(', ')}`, nearest)]);
	}
	const parsed = edit.params.safeParse(asked.params);
	return parsed.success
		? ok({ edit, params: parsed.data })
		: refused(faultsOfIssues(params, parsed.error.issues, placeOf(place)));
}

function placeOf(place: number): readonly PathStep[] {
	return ['edits', place, 'params'];
}

/** A fault of one of the edits, told at its place among the parameters of all. */
function moved(found: Fault, to: readonly PathStep[]): Fault {
	const path = pathOf(to) + found.path.slice(1);
	const message = found.message.startsWith(found.path) ? path + found.message.slice(found.path.length) : found.message;
	return { ...found, path, message };
}
