/**
 * Applies a JSON Patch (RFC 6902) to a copy of a value: the operations that the demo's edits use, `test`, `add`, `remove`
 * and `replace`. Throws where a `test` fails or a path leads nowhere.
 */

export interface PatchOperation {
	readonly op: 'test' | 'add' | 'remove' | 'replace';
	readonly path: string;
	readonly value?: unknown;
}

export function patched(value: unknown, operations: readonly PatchOperation[]): unknown {
	const copy: unknown = structuredClone(value);
	for (const operation of operations) apply(copy, operation);
	return copy;
}

function apply(root: unknown, { op, path, value }: PatchOperation): void {
	// RFC 6901: ~1 stands for a slash, ~0 for a tilde, in this order.
	const keys = path
		.split('/')
		.slice(1)
		.map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
	const last = keys.pop();
	const holder = keys.reduce<unknown>((at, key) => memberOf(at, key, path), root);
	if (last === undefined) throw new Error('an operation on the whole document');
	if (op !== 'add') memberOf(holder, last, path);
	if (op === 'test') {
		if (JSON.stringify(memberOf(holder, last, path)) !== JSON.stringify(value)) throw new Error(`${path} is another`);
	} else if (Array.isArray(holder)) {
		const index = last === '-' ? holder.length : Number(last);
		if (op === 'add') holder.splice(index, 0, value);
		else if (op === 'remove') holder.splice(index, 1);
		else holder[index] = value;
	} else if (op === 'remove') {
		Reflect.deleteProperty(holder as object, last);
	} else {
		Reflect.set(holder as object, last, value);
	}
}

function memberOf(holder: unknown, key: string, path: string): unknown {
	if (typeof holder !== 'object' || holder === null || !Object.hasOwn(holder, key)) {
		throw new Error(`${path} leads nowhere`);
	}
	return Reflect.get(holder, key);
}
