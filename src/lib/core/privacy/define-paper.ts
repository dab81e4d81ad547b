import type { Rollout } from '../document/schema';

/** A piece of text, or a blank to be filled in by hand because the document does not hold the fact. */
export type Part = string | { readonly blank: string };

/** A line of a paper: pieces that are read one after the other. */
export type Line = readonly Part[];

/** A block of a section. */
export type Block =
	| { readonly kind: 'words'; readonly line: Line }
	| { readonly kind: 'list'; readonly items: readonly Line[] }
	| {
			readonly kind: 'table';
			readonly caption: string;
			readonly columns: readonly string[];
			readonly rows: readonly (readonly Line[])[];
	  };

export interface PaperSection {
	readonly heading: string;
	readonly blocks: readonly Block[];
}

/** A paper made from the settings of a rollout for counsel to review: one file in `papers/`. Never legal advice. */
export interface Paper {
	readonly id: string;
	readonly title: string;
	/** What it is for, in a sentence. */
	readonly about: string;
	/** Its text; names nobody among the people of the site. */
	readonly make: (rollout: Rollout) => readonly PaperSection[];
}

/** Gives a paper its types; the identity otherwise. */
export function definePaper(paper: Paper): Paper {
	return paper;
}

/** What stands on each paper, first and last. */
export const reviewLine =
	'Draft for review by counsel. It was put together from the settings of this rollout, is not complete, and is no legal advice.';

/** A fact of the document, or a blank that says what belongs there. */
export function fact(value: string | null | undefined, blank: string): Part {
	return value === null || value === undefined || value === '' ? { blank } : value;
}

export function words(...line: Part[]): Block {
	return { kind: 'words', line };
}

export function list(items: readonly Line[]): Block {
	return { kind: 'list', items };
}

/** The blanks of a paper, in the order in which they stand in it. */
export function blanksOf(sections: readonly PaperSection[]): string[] {
	return sections
		.flatMap(({ blocks }) => blocks)
		.flatMap((block) =>
			block.kind === 'words' ? [block.line] : block.kind === 'list' ? block.items : block.rows.flat()
		)
		.flat()
		.flatMap((part) => (typeof part === 'string' ? [] : [part.blank]));
}
