import { distance } from 'fastest-levenshtein';
import { editsBetween } from './edit-distance';
import { lettersInAnyOrder, lettersInOrder, tokensOf, withoutSmallWords } from './header-text';
import type { Concept } from './concept';
import { type Term, terms, termsByLetters, termsByWords } from './vocabulary';

/** What a header may mean, and how sure that is by its words alone, 0 to 1. */
export interface Recognition {
	readonly concept: Concept;
	readonly sure: number;
}

/** Words that make any header something else, whatever else stands in it: the manager's e-mail is nobody's in the row. */
const foreignWords = new RegExp(
	`^(?:${[
		...[
			'manager.*',
			'supervisor.*',
			'superior',
			'vorgesetzt.*',
			'f(?:u|ue)hrungskraft.*',
			'leiter.*',
			'leader',
			'responsable'
		],
		...[
			'chef',
			'jefe',
			'przelozon.*',
			'kierowni.*',
			'emergency',
			'notfall.*',
			'urgence',
			'emergencia',
			'spouse',
			'partner',
			'mother'
		],
		...[
			'birth.*',
			'geburt.*',
			'geb',
			'naissance',
			'nacimiento',
			'urodzenia',
			'maiden',
			'cost',
			'kostenstelle.*',
			'salary'
		],
		...[
			'privat.*',
			'prywatny',
			'personal',
			'previous',
			'former',
			'old',
			'alt',
			'alte',
			'alter',
			'ancien',
			'anterior',
			'poprzedni.*'
		],
		...['probation', 'probezeit', 'phone', 'tele(?:f|ph)on.*', 'mobile']
	].join('|')})$`
);

/**
 * What a header means, the surest first; empty when nothing is known of it. Known words count in any order and spelling
 * of capitals, accents and punctuation; then a header that holds known words and others; then abbreviations, where only
 * one meaning fits; then typing errors, at most one in five letters.
 */
export function recognizeHeader(header: string): readonly Recognition[] {
	if (header.length > 80) return [];
	const tokens = tokensOf(header);
	const letters = tokens.join('');
	if (letters.length === 0 || tokens.length > 7 || /^\d+$/.test(letters)) return [];
	const exact = exactly(tokens);
	if (exact.length > 0) return exact;
	const typed = mistyping(letters);
	const rest = [...holding(tokens), ...abbreviating(tokens), ...(typed.length > 0 ? typed : mistypingTurned(tokens))];
	return surest(rest);
}

function exactly(tokens: readonly string[]): readonly Recognition[] {
	const inOrder = recognitions(termsByLetters.get(lettersInOrder(tokens)), 0.98);
	if (inOrder.length > 0) return surest(inOrder);
	return surest(recognitions(termsByWords.get(lettersInAnyOrder(tokens) ?? ''), 0.95));
}

function recognitions(known: readonly Term[] | undefined, sure: number): Recognition[] {
	return (known ?? []).map(({ concept, isWeak }) => ({ concept, sure: isWeak ? sure * 0.6 : sure }));
}

/** A known header inside of a longer one: `Employee ID (HR system)`, `Current department`. The longest one counts. */
function holding(tokens: readonly string[]): Recognition[] {
	const main = withoutSmallWords(tokens);
	if (main.length < 2) return [];
	if (main.some((token) => foreignWords.test(token))) return [{ concept: 'other', sure: 0.85 }];
	const have = new Set(main);
	let longest = 0;
	let found: Term[] = [];
	for (const term of terms) {
		if (term.isWeak) continue;
		const size = term.mainLength;
		if (size < 3 || size < longest || !term.main.every((token) => have.has(token))) continue;
		if (size > longest) found = [];
		longest = size;
		found.push(term);
	}
	const share = longest / main.join('').length;
	return found.map(({ concept }) => ({ concept, sure: round(0.55 + 0.3 * share) }));
}

/** `Eintr.-Dat.` for `Eintrittsdatum`, `Empl. No.` for `employee no`: pieces in order, the first at the beginning. */
function abbreviating(tokens: readonly string[]): Recognition[] {
	const size = tokens.join('').length;
	if (size < 3 || tokens.some((token) => /^\d+$/.test(token))) return [];
	const found = new Map<Concept, number>();
	const initial = tokens[0]?.charAt(0) ?? '';
	for (const term of terms) {
		if (term.isWeak || !term.letters.startsWith(initial) || !isAbbreviated(tokens, term.tokens)) continue;
		const share = size / term.letters.length;
		found.set(term.concept, Math.max(found.get(term.concept) ?? 0, share));
	}
	// An abbreviation of two different things says nothing.
	const [only, ...others] = [...found];
	return only && others.length === 0 && only[1] >= 0.25 ? [{ concept: only[0], sure: round(0.6 + 0.2 * only[1]) }] : [];
}

function isAbbreviated(pieces: readonly string[], words: readonly string[]): boolean {
	if (pieces.length === words.length) {
		return pieces.every(
			(piece, index) => (words[index] ?? '').startsWith(piece) && piece.length >= (index === 0 ? 2 : 1)
		);
	}
	if (words.length !== 1 || pieces.length > 3) return false;
	const word = words[0] ?? '';
	let at = 0;
	return pieces.every((piece, index) => {
		const found = word.indexOf(piece, at);
		if (found < 0 || piece.length < 3 || (index === 0 && found > 0)) return false;
		at = found + piece.length;
		return true;
	});
}

/** Known headers that may be mistyped, by how many letters they have. */
const termsByLength = new Map<number, Term[]>();
for (const term of terms) {
	const { length } = term.letters;
	if (length < (term.isWeak ? 6 : 4)) continue;
	const list = termsByLength.get(length);
	if (list) list.push(term);
	else termsByLength.set(length, [term]);
}

function mistyping(letters: string): Recognition[] {
	const most = letters.length < 4 ? 0 : letters.length < 9 ? 1 : letters.length < 14 ? 2 : 3;
	const found: Recognition[] = [];
	let fewest = most;
	for (let length = letters.length - most; most > 0 && length <= letters.length + most; length++) {
		for (const { letters: known, concept, isWeak } of termsByLength.get(length) ?? []) {
			// Quick to reckon, and never more than twice as many: two swapped letters are two edits there.
			if (distance(letters, known) > fewest * 2) continue;
			const edits = editsBetween(letters, known, fewest);
			if (edits > fewest) continue;
			if (edits < fewest) found.length = 0;
			fewest = edits;
			const sure = 0.88 - edits / Math.max(letters.length, known.length);
			found.push({ concept, sure: round(isWeak ? sure * 0.65 : sure) });
		}
	}
	return found;
}

/** `Date of hirre` for `hire date`: two words around small ones, in either order. */
function mistypingTurned(tokens: readonly string[]): Recognition[] {
	const [first = '', second = '', ...more] = withoutSmallWords(tokens);
	if (second === '' || more.length > 0) return [];
	const straight = mistyping(first + second);
	return straight.length > 0 ? straight : mistyping(second + first);
}

/** The surest of each concept, the surest concept first; for less than half sure nothing is said unless it is all there is. */
function surest(all: readonly Recognition[]): readonly Recognition[] {
	const best = new Map<Concept, number>();
	for (const { concept, sure } of all) best.set(concept, Math.max(best.get(concept) ?? 0, sure));
	return [...best].map(([concept, sure]) => ({ concept, sure: round(sure) })).sort((a, b) => b.sure - a.sure);
}

function round(sure: number): number {
	return Math.round(sure * 100) / 100;
}
