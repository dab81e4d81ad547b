import type { Concept, Words } from './concept';
import { words as en } from './words-en';
import { words as de } from './words-de';
import { words as es } from './words-es';
import { words as fr } from './words-fr';
import { words as pl } from './words-pl';
import { lettersInAnyOrder, lettersInOrder, tokensOf, withoutSmallWords } from './header-text';

/** One known header. */
export interface Term {
	readonly concept: Concept;
	/** Its words in the spelling of `tokensOf`. */
	readonly tokens: readonly string[];
	/** All its letters, run together. */
	readonly letters: string;
	/** The words that carry meaning, and how many letters they have. */
	readonly main: readonly string[];
	readonly mainLength: number;
	readonly isWeak: boolean;
}

export const languages = { en, de, fr, es, pl } as const;

/** Every known header. */
export const terms: readonly Term[] = Object.values(languages).flatMap((words: Words) =>
	Object.entries(words).flatMap(([concept, list]) =>
		list.split(',').flatMap((entry) => {
			const isWeak = entry.trim().startsWith('~');
			return termsOf(concept as Concept, entry.replace('~', ''), isWeak);
		})
	)
);

/** A word with umlauts is known in both spellings, `ä` as `a` and as `ae`. */
function termsOf(concept: Concept, phrase: string, isWeak: boolean): Term[] {
	const spellings = new Map(
		[phrase, phrase.replace(/[äöü]/g, (c) => ({ ä: 'ae', ö: 'oe', ü: 'ue' })[c] ?? c)].map((one) => {
			const tokens = tokensOf(one);
			return [tokens.join(' '), tokens];
		})
	);
	return [...spellings.values()].map((tokens) => {
		const main = withoutSmallWords(tokens);
		return { concept, tokens, letters: lettersInOrder(tokens), main, mainLength: main.join('').length, isWeak };
	});
}

/** The known headers by their letters, all words run together. */
export const termsByLetters: ReadonlyMap<string, readonly Term[]> = indexed(lettersInOrder);

/** The known headers by their words in any order. */
export const termsByWords: ReadonlyMap<string, readonly Term[]> = indexed(lettersInAnyOrder);

function indexed(keyOf: (tokens: readonly string[]) => string | undefined): Map<string, Term[]> {
	const index = new Map<string, Term[]>();
	for (const term of terms) {
		const key = keyOf(term.tokens);
		if (key === undefined) continue;
		const there = index.get(key);
		if (!there) index.set(key, [term]);
		else if (!there.some(({ concept, isWeak }) => concept === term.concept && isWeak === term.isWeak)) there.push(term);
	}
	return index;
}
