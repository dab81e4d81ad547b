/**
 * Looks for many texts at once, as whole words and whatever their case: names, staff numbers, e-mail addresses. A text is looked
 * for from each place at which a word begins, by its first word, so that the time does not grow with how many are looked for.
 */
export class TextNeedles {
	/** Texts in lower case by their first word, the longest first. */
	readonly #byFirst = new Map<string, string[]>();

	/** Adds a text; one without letters and digits is passed over. */
	add(text: string): void {
		const needle = text.trim().toLowerCase();
		const first = wordAt(needle, 0) ?? firstWord(needle);
		if (first === undefined || !needle.startsWith(first)) return;
		const same = this.#byFirst.get(first);
		if (!same) this.#byFirst.set(first, [needle]);
		else if (!same.includes(needle)) same.push(needle);
		same?.sort((a, b) => b.length - a.length);
	}

	/** True when any of them stands in a text. */
	isIn(text: string): boolean {
		return this.#find(text.toLowerCase(), 0) !== undefined;
	}

	/** The text with another one in place of each. */
	replaced(text: string, instead: string): string {
		const lower = text.toLowerCase();
		// Where lower case has another length, places no longer fit; then the whole text goes.
		if (lower.length !== text.length) return this.isIn(text) ? instead : text;
		let result = '';
		let at = 0;
		for (let found = this.#find(lower, 0); found; found = this.#find(lower, at)) {
			result += text.slice(at, found.start) + instead;
			at = found.end;
		}
		return result + text.slice(at);
	}

	#find(text: string, from: number): { start: number; end: number } | undefined {
		word.lastIndex = from;
		for (let match = word.exec(text); match; match = word.exec(text)) {
			const start = match.index;
			for (const needle of this.#byFirst.get(match[0]) ?? []) {
				const end = start + needle.length;
				if (text.startsWith(needle, start) && !isInWord(text, end)) return { start, end };
			}
		}
		return undefined;
	}
}

const word = /[\p{L}\p{N}\p{M}]+/gu;

function firstWord(text: string): string | undefined {
	return /[\p{L}\p{N}\p{M}]+/u.exec(text)?.[0];
}

function wordAt(text: string, at: number): string | undefined {
	return /^[\p{L}\p{N}\p{M}]+/u.exec(text.slice(at))?.[0];
}

function isInWord(text: string, at: number): boolean {
	return /^[\p{L}\p{N}\p{M}]/u.test(text.slice(at, at + 2));
}
