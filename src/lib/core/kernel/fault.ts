/**
 * One thing wrong with the input or the call: where, what was found, what was expected.
 * `path` is a normalized path of RFC 9535 in its short form, `$.doors[0].from`; `value` is what stood there.
 * @source RFC 9535, section 2.7 (normalized paths); the short form is ours
 */
export interface Fault {
	readonly path: string;
	readonly value: unknown;
	readonly expected: string;
	readonly nearest?: string;
	readonly message: string;
}

export type PathStep = string | number;

const plainName = /^[A-Za-z_][A-Za-z0-9_]*$/;

/**
 * Writes steps as a path: names that are identifiers with a dot, others quoted in brackets.
 * @example pathOf(['doors', 0, 'from']) // '$.doors[0].from'
 * @source RFC 9535, sections 2.3.1 and 2.7 (escapes in single quotes)
 */
export function pathOf(steps: readonly PathStep[]): string {
	let path = '$';
	for (const step of steps) {
		if (typeof step === 'number') path += `[${step}]`;
		else if (plainName.test(step)) path += `.${step}`;
		else path += `['${escaped(step)}']`;
	}
	return path;
}

function escaped(name: string): string {
	return name
		.replace(/[\\']/g, (c) => `\\${c}`)
		.replace(/[\u0000-\u001f]/g, (c) => {
			const short = { '\b': '\\b', '\f': '\\f', '\n': '\\n', '\r': '\\r', '\t': '\\t' }[c];
			return short ?? `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
		});
}

/**
 * Makes a fault; the sentence says where, what was found and what was expected, and the nearest name if one is offered.
 */
export function fault(steps: readonly PathStep[], value: unknown, expected: string, nearest?: string): Fault {
	const path = pathOf(steps);
	const hint = nearest === undefined ? '' : `; did you mean ${JSON.stringify(nearest)}?`;
	return {
		path,
		value: value === undefined ? null : carried(value),
		expected,
		...(nearest === undefined ? {} : { nearest }),
		message: `${path}: found ${shown(value)}, expected ${expected}${hint}`
	};
}

/** A value as it is shown in a sentence: JSON, cut after 80 characters; a missing one is `nothing`. */
export function shown(value: unknown): string {
	if (value === undefined) return 'nothing';
	const text = startOfJson(value, 80);
	return text.length > 80 ? `${text.slice(0, 77)}…` : text;
}

/** The longest JSON that a fault carries whole. A file that holds something else entirely would come back with each fault. */
const mostCarried = 2_000;

function carried(value: unknown): unknown {
	return startOfJson(value, mostCarried).length > mostCarried ? shown(value) : value;
}

/**
 * The start of the JSON of a value, longer than `most` exactly when the whole is. Looks no further than that, so that
 * neither a huge value nor one nested ten thousand times costs anything.
 */
function startOfJson(value: unknown, most: number): string {
	let text = '';
	const write = (part: unknown): void => {
		if (text.length > most) return;
		if (typeof part === 'string') text += JSON.stringify(part.slice(0, most + 1));
		else if (typeof part !== 'object' || part === null) text += JSON.stringify(part);
		else if (Array.isArray(part)) writeAll(part.keys(), '[', ']', (key) => write((part as unknown[])[key]));
		else {
			writeAll(Object.keys(part), '{', '}', (key) => {
				text += `${JSON.stringify(key)}:`;
				write((part as Record<string, unknown>)[key]);
			});
		}
	};
	const writeAll = <K>(keys: Iterable<K>, open: string, close: string, writeOne: (key: K) => void): void => {
		text += open;
		let isFirst = true;
		for (const key of keys) {
			if (text.length > most) return;
			if (!isFirst) text += ',';
			isFirst = false;
			writeOne(key);
		}
		text += close;
	};
	write(value);
	return text;
}
