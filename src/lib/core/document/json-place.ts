/**
 * Where a text stops being JSON, so that a person can be shown the place. Engines tell it in some of their messages and
 * in others not. Reads token by token with a stack of the open objects and lists; the cost is linear.
 * @source RFC 8259, sections 2 to 7
 */

const space = /[ \t\n\r]*/y;
const string = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*/y;
const number = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const literal = /true|false|null/y;
/** What the end of the text cuts off: a word, a number, an escape in a string. */
const cutWord = /(?:-|t|tr|tru|f|fa|fal|fals|n|nu|nul)$/y;
const cutNumber = /(?:\.|[eE][+-]?)$/y;
const cutEscape = /\\(?:u[0-9a-fA-F]{0,3})?$/y;

type Wanted = 'value' | 'value or end' | 'key' | 'key or end' | 'colon' | 'comma or end';

/**
 * The offset of the first character that cannot belong to JSON: the length of the text where it breaks off, undefined
 * where it is JSON.
 * @example findJsonEnd('{"a":x}') // 5
 */
export function findJsonEnd(text: string): number | undefined {
	const open: ('{' | '[')[] = [];
	let wanted: Wanted = 'value';
	let at = 0;
	const take = (token: RegExp): boolean => {
		token.lastIndex = at;
		const isThere = token.test(text);
		if (isThere) at = token.lastIndex;
		return isThere;
	};
	/** Passes a string; false with `at` where it goes wrong. */
	const takeString = (): boolean => {
		take(string);
		if (text[at] !== '"') {
			take(cutEscape);
			return false;
		}
		at++;
		return true;
	};
	for (;;) {
		take(space);
		if (wanted === 'comma or end' && open.length === 0) return at === text.length ? undefined : at;
		const sign = text[at];
		if (sign === undefined) return text.length;
		if (sign === '}' || sign === ']') {
			const isOwn = open.at(-1) === (sign === '}' ? '{' : '[');
			if (!isOwn || !(wanted === 'comma or end' || wanted.endsWith('or end'))) return at;
			open.pop();
			at++;
			wanted = 'comma or end';
		} else if (wanted === 'comma or end') {
			if (sign !== ',') return at;
			at++;
			wanted = open.at(-1) === '{' ? 'key' : 'value';
		} else if (wanted === 'colon') {
			if (sign !== ':') return at;
			at++;
			wanted = 'value';
		} else if (wanted === 'key' || wanted === 'key or end') {
			if (sign !== '"' || !takeString()) return at;
			wanted = 'colon';
		} else if (sign === '{' || sign === '[') {
			open.push(sign);
			at++;
			wanted = sign === '{' ? 'key or end' : 'value or end';
		} else if (sign === '"') {
			if (!takeString()) return at;
			wanted = 'comma or end';
		} else {
			const isNumber = take(number);
			if (isNumber && take(cutNumber)) return text.length;
			if (!isNumber && !take(literal)) return take(cutWord) ? text.length : at;
			wanted = 'comma or end';
		}
	}
}
