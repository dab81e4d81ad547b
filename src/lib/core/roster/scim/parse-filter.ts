import { type CompareOperator, type Filter, type PatchPath, compareOperators } from './filter';
import type { AttributePath } from './resolve';
import { type ScimResult, type ScimType, given, wrong } from './scim-result';

/** The longest filter, in characters, and how deep parentheses may go: more is an attack or a mistake. */
const mostCharacters = 8_000;
const mostDeep = 50;

const space = /[ \t]+/y;
const attributeText = /(?:urn:[A-Za-z0-9][^\s()[\]"]*:)?\$?[A-Za-z][\w-]*(?:\.\$?[A-Za-z][\w-]*)?/y;
const wordText = /[A-Za-z]+/y;
const stringText = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9A-Fa-f]{4}))*"/y;
const numberText = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?(?![\w.])/y;

/** Where and why a text is no filter. Thrown and caught in this file only. */
class Unreadable extends Error {}

/**
 * Reads a filter. `and` binds more tightly than `or`, `not` and parentheses most tightly; operators and attribute names in any
 * capitals. Refuses with `invalidFilter`, telling where; never throws.
 * @source RFC 7644, section 3.4.2.2 (grammar in ABNF: figure 1; order of operations: below table 5)
 */
export function parseFilter(text: string): ScimResult<Filter> {
	return reading(text, 'invalidFilter', (reader) => reader.filter(0));
}

/**
 * Reads the path of a change: `name.familyName`, `emails[type eq "work"]`, `emails[type eq "work"].value`. Refuses with `invalidPath`.
 * @source RFC 7644, section 3.5.2, figure 7
 */
export function parsePatchPath(text: string): ScimResult<PatchPath> {
	return reading(text, 'invalidPath', (reader) => reader.patchPath());
}

/** Reads the name of an attribute as in `attributes` and `sortBy`. */
export function parseAttributePath(text: string): ScimResult<AttributePath> {
	return reading(text, 'invalidPath', (reader) => reader.path());
}

function reading<T>(text: string, scimType: ScimType, read: (reader: Reader) => T): ScimResult<T> {
	if (text.length > mostCharacters) return wrong(scimType, `This is longer than ${mostCharacters} characters.`);
	const reader = new Reader(text);
	try {
		reader.skip();
		const value = read(reader);
		reader.skip();
		if (!reader.isAtEnd) reader.fail('nothing more');
		return given(value);
	} catch (error) {
		if (error instanceof Unreadable) return wrong(scimType, error.message);
		throw error;
	}
}

class Reader {
	#at = 0;
	readonly #text: string;

	constructor(text: string) {
		this.#text = text;
	}

	get isAtEnd(): boolean {
		return this.#at >= this.#text.length;
	}

	fail(expected: string): never {
		const found = this.isAtEnd ? 'its end' : JSON.stringify(this.#text.slice(this.#at, this.#at + 20));
		throw new Unreadable(`At character ${this.#at + 1} stands ${found}, expected is ${expected}.`);
	}

	skip(): boolean {
		return this.#take(space) !== undefined;
	}

	filter(deep: number): Filter {
		if (deep > mostDeep) this.fail(`at most ${mostDeep} parentheses in each other`);
		return this.#chain('or', () => this.#chain('and', () => this.#term(deep)));
	}

	patchPath(): PatchPath {
		const path = this.path();
		if (!this.#takeMark('[')) return { path, filter: undefined, sub: undefined };
		const filter = this.#bracketed(path, 0);
		if (!this.#takeMark('.')) return { path, filter, sub: undefined };
		const sub = this.#take(/\$?[A-Za-z][\w-]*/y) ?? this.fail('a sub-attribute');
		return { path, filter, sub };
	}

	path(): AttributePath {
		const found = this.#take(attributeText) ?? this.fail('the name of an attribute');
		const colon = found.startsWith('urn:') ? found.lastIndexOf(':') : -1;
		const [name = '', sub] = found.slice(colon + 1).split('.');
		return {
			...(colon < 0 ? {} : { urn: found.slice(0, colon) }),
			name,
			...(sub === undefined ? {} : { sub })
		};
	}

	/** Terms joined by one operator; a single one stands for itself. */
	#chain(kind: 'and' | 'or', part: () => Filter): Filter {
		const parts = [part()];
		for (;;) {
			const before = this.#at;
			const isApart = this.skip();
			if (!isApart || this.#take(wordText)?.toLowerCase() !== kind) {
				this.#at = before;
				break;
			}
			if (!this.skip() && this.#text[this.#at] !== '(') this.fail('a space');
			parts.push(part());
		}
		const [only] = parts;
		return parts.length === 1 && only ? only : { kind, parts };
	}

	#term(deep: number): Filter {
		if (this.#takeMark('(')) return this.#inParentheses(deep);
		const before = this.#at;
		if (this.#take(wordText)?.toLowerCase() === 'not') {
			this.skip();
			if (this.#takeMark('(')) return { kind: 'not', part: this.#inParentheses(deep) };
		}
		this.#at = before;
		const path = this.path();
		if (this.#takeMark('[')) return { kind: 'within', path, filter: this.#bracketed(path, deep + 1) };
		if (!this.skip()) this.fail('a space and an operator');
		const operatorAt = this.#at;
		const operator = this.#take(wordText)?.toLowerCase();
		if (operator === 'pr') return { kind: 'present', path };
		if (!isCompare(operator)) {
			this.#at = operatorAt;
			this.fail(`one of the operators ${compareOperators.join(', ')}, pr`);
		}
		if (!this.skip()) this.fail('a space and a value');
		return { kind: 'compare', path, operator, value: this.#value() };
	}

	#inParentheses(deep: number): Filter {
		this.skip();
		const inner = this.filter(deep + 1);
		this.skip();
		if (!this.#takeMark(')')) this.fail('a closing parenthesis');
		return inner;
	}

	#bracketed({ sub }: AttributePath, deep: number): Filter {
		if (sub !== undefined) this.fail('an attribute without a sub-attribute before the bracket');
		this.skip();
		const filter = this.filter(deep);
		if (hasBrackets(filter)) this.fail('no brackets within brackets');
		this.skip();
		if (!this.#takeMark(']')) this.fail('a closing bracket');
		return filter;
	}

	#value(): string | number | boolean | null {
		const quoted = this.#take(stringText);
		if (quoted !== undefined) return JSON.parse(quoted) as string;
		const number = this.#take(numberText);
		if (number !== undefined && Number.isFinite(Number(number))) return Number(number);
		const before = this.#at;
		const word = this.#take(wordText)?.toLowerCase();
		if (word === 'true' || word === 'false') return word === 'true';
		if (word === 'null') return null;
		this.#at = before;
		return this.fail('text in double quotes, a number, true, false or null');
	}

	#take(pattern: RegExp): string | undefined {
		pattern.lastIndex = this.#at;
		const found = pattern.exec(this.#text)?.[0];
		if (found !== undefined) this.#at += found.length;
		return found;
	}

	#takeMark(mark: string): boolean {
		if (this.#text[this.#at] !== mark) return false;
		this.#at++;
		return true;
	}
}

function isCompare(word: string | undefined): word is CompareOperator {
	return compareOperators.includes(word as CompareOperator);
}

function hasBrackets(filter: Filter): boolean {
	if (filter.kind === 'within') return true;
	if (filter.kind === 'not') return hasBrackets(filter.part);
	return (filter.kind === 'and' || filter.kind === 'or') && filter.parts.some(hasBrackets);
}
