/**
 * What changed from one value to the next where most of it is the same objects: sent to a thread that has the earlier value, it
 * makes the later one there, which again shares with the earlier one what did not change.
 */
export type Patch =
	| { readonly kind: 'same' }
	| { readonly kind: 'value'; readonly value: unknown }
	/** Fields that changed; the others, and which fields there are, stay. */
	| { readonly kind: 'fields'; readonly fields: readonly (readonly [key: string, patch: Patch])[] }
	/** So many entries stay at the beginning and at the end; what is between them is replaced. */
	| { readonly kind: 'list'; readonly first: number; readonly last: number; readonly between: readonly unknown[] };

/** What makes `after` of `before`. Objects are looked into, entries of lists are taken as they are. */
export function patchOf(before: unknown, after: unknown): Patch {
	if (before === after) return { kind: 'same' };
	if (Array.isArray(before) && Array.isArray(after)) return patchOfList(before, after);
	if (!isObject(before) || !isObject(after)) return { kind: 'value', value: after };
	const keys = Object.keys(after);
	if (keys.join('\n') !== Object.keys(before).join('\n')) return { kind: 'value', value: after };
	const fields = keys.flatMap((key): [string, Patch][] => {
		const patch = patchOf(before[key], after[key]);
		return patch.kind === 'same' ? [] : [[key, patch]];
	});
	return fields.length === 0 ? { kind: 'same' } : { kind: 'fields', fields };
}

/** The later value, made of the earlier one and what changed. */
export function patched(before: unknown, patch: Patch): unknown {
	switch (patch.kind) {
		case 'same':
			return before;
		case 'value':
			return patch.value;
		case 'list': {
			const list = before as readonly unknown[];
			return [...list.slice(0, patch.first), ...patch.between, ...list.slice(list.length - patch.last)];
		}
		case 'fields': {
			const fields = before as Readonly<Record<string, unknown>>;
			return { ...fields, ...Object.fromEntries(patch.fields.map(([key, one]) => [key, patched(fields[key], one)])) };
		}
	}
}

function patchOfList(before: readonly unknown[], after: readonly unknown[]): Patch {
	const most = Math.min(before.length, after.length);
	let first = 0;
	while (first < most && before[first] === after[first]) first++;
	if (first === before.length && first === after.length) return { kind: 'same' };
	let last = 0;
	while (last < most - first && before[before.length - 1 - last] === after[after.length - 1 - last]) last++;
	return { kind: 'list', first, last, between: after.slice(first, after.length - last) };
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
	return typeof value === 'object' && value !== null && !Array.isArray(value);
}
