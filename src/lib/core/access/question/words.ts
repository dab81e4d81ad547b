/**
 * A question as text in which what is understood is marked off, so that nothing is read twice. Letters are compared without
 * case and accents; places in the folded text are places in the text as typed, so that a part can be put differently.
 */

/** A part of the text. */
export interface Part {
	readonly from: number;
	readonly to: number;
}

/** A word of the folded text that is not yet understood. */
export interface Word extends Part {
	readonly text: string;
}

/** Stands where something was understood; no word and no space. */
const taken = '\u0001';

const wordForm = /[\p{L}\p{N}\p{S}]+/gu;

/** Text without case and accents, as long as before. */
export function folded(text: string): string {
	return Array.from({ length: text.length }, (_, place) => {
		const unit = text[place] ?? '';
		const code = unit.charCodeAt(0);
		if (code >= 0xd800 && code <= 0xdfff) return unit;
		if (unit === '\u2019' || unit === '\u2018') return "'";
		if (unit === '\u201c' || unit === '\u201d') return '"';
		const plain = unit.normalize('NFKD')[0]?.toLowerCase()[0] ?? ' ';
		return plain < ' ' ? ' ' : plain;
	}).join('');
}

/** The words of a name, folded, for comparing: `Visitors’ gallery` is `visitors gallery`. Apostrophes join, all else divides. */
export function wordsOfName(name: string): string[] {
	return folded(name).replaceAll("'", '').match(wordForm) ?? [];
}

/** A word without the ending of a plural: `rooms` is `room`. */
export function singular(word: string): string {
	return word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;
}

export class Spoken {
	readonly text: string;
	#left: string;

	constructor(text: string) {
		this.text = text;
		this.#left = folded(text);
	}

	/** What is not understood yet, as long as the text. */
	get left(): string {
		return this.#left;
	}

	/** Finds a form in what is left, and takes it out of it; null where it is not there. */
	take(form: RegExp): (Part & { readonly match: RegExpExecArray }) | null {
		const match = form.exec(this.#left);
		if (!match) return null;
		const part = { from: match.index, to: match.index + match[0].length };
		this.takePart(part);
		return { ...part, match };
	}

	takePart({ from, to }: Part): void {
		this.#left = this.#left.slice(0, from) + taken.repeat(to - from) + this.#left.slice(to);
	}

	/** A part as it was typed. */
	typed({ from, to }: Part): string {
		return this.text.slice(from, to).trim();
	}

	/** The whole question with other words for a part. */
	instead({ from, to }: Part, words: string): string {
		return `${this.text.slice(0, from)}${words}${this.text.slice(to)}`;
	}

	/** The words that are left, in runs that nothing divides but spaces and marks. */
	runs(): Word[][] {
		const runs: Word[][] = [];
		for (const piece of this.#left.matchAll(/[^\u0001,;?!]+/g)) {
			const words = [...piece[0].matchAll(/[\p{L}\p{N}\p{S}]+(?:'[\p{L}]+)*/gu)].map((word) => {
				const from = piece.index + word.index;
				return { from, to: from + word[0].length, text: word[0].replaceAll("'", '') };
			});
			if (words.length > 0) runs.push(words);
		}
		return runs;
	}
}
