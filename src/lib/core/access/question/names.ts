import { distance } from 'fastest-levenshtein';
import type { Rollout } from '../../document/schema';
import { remembered } from '../../kernel/remembered';
import { type Part, type Spoken, type Word, singular, wordsOfName } from './words';

/** The names of a rollout that a question may say, and how words are matched with them. */

export type NamedKind = 'door' | 'area' | 'person' | 'department' | 'holiday';

/** Something of the rollout that has a name. */
export interface Named {
	readonly kind: NamedKind;
	/** The id; of a department and a holiday its name. */
	readonly id: string;
	readonly label: string;
	readonly words: readonly string[];
}

/** A part of the question, and what it may mean: the likeliest first. */
export interface NameHeard extends Part {
	readonly found: readonly Named[];
	/** `exact`: the whole name or id. `part`: some words of it. `near`: only nearly spelled so. */
	readonly match: 'exact' | 'part' | 'near';
}

interface Index {
	readonly all: readonly Named[];
	/** By the words of the whole name or id, joined by spaces. */
	readonly exact: ReadonlyMap<string, readonly Named[]>;
	readonly byWord: ReadonlyMap<string, readonly Named[]>;
	readonly longest: number;
}

const indexes = new WeakMap<Rollout, Index>();

function indexOf(rollout: Rollout): Index {
	const known = indexes.get(rollout);
	if (known) return known;
	const all: Named[] = [];
	const exact = new Map<string, Named[]>();
	const byWord = new Map<string, Named[]>();
	let longest = 1;
	const add = (kind: NamedKind, id: string, name: string | null) => {
		const words = wordsOfName(name ?? id);
		const one: Named = { kind, id, label: name ?? id, words };
		all.push(one);
		longest = Math.max(longest, words.length);
		const idWords = wordsOfName(id);
		for (const key of new Set([words.join(' '), idWords.join(' '), words.map(singular).join(' ')])) {
			if (key !== '') remembered(exact, key, () => []).push(one);
		}
		const idWord = idWords.length === 1 ? idWords : [];
		for (const word of new Set([...words, ...words.map(singular), ...idWord]))
			remembered(byWord, word, () => []).push(one);
	};
	for (const { id, name } of rollout.doors) add('door', id, name);
	for (const { id, name } of rollout.areas) add('area', id, name);
	for (const { id, name } of rollout.people) add('person', id, name);
	for (const name of new Set(rollout.people.flatMap(({ department }) => department ?? [])))
		add('department', name, name);
	for (const name of new Set(rollout.holidays.days.flatMap(({ name }) => name ?? []))) add('holiday', name, name);
	const index = { all, exact, byWord, longest: Math.min(longest, 12) };
	indexes.set(rollout, index);
	return index;
}

/** Words of questions, that name nothing by themselves unless they stand in quotation marks or in a longer name. */
const spoken = new Set(
	`a about access after all allowed an and any anybody anyone are area at be been before being between by can cannot cant could
	date day did do does doesnt door doors during each enter every everybody everyone for from gate get gets give go goes has have he her him his
	hour how i if in inside into is isnt it its let list may me might morning my name next night not now o oclock of off on only open opened
	opening opens or our out people person persons please reach room see she shift should show somebody someone staff tell that the their them
	then there they this through time to today tomorrow tonight unlock up use via was way we what when where which who whom whose why
	will with wont would yesterday you your`.split(/\s+/)
);

/** Takes every part that stands in quotation marks after what it is: `door "cold-1"`, as offered choices write it. */
export function takeQuoted(rollout: Rollout, text: Spoken): NameHeard[] {
	const heard: NameHeard[] = [];
	for (let found = next(text); found; found = next(text)) {
		const [, kind, inner = ''] = found.match;
		const id = text.text.slice(found.to - 1 - inner.length, found.to - 1);
		const { all, exact } = indexOf(rollout);
		const isKind = (one: Named) => kind === undefined || one.kind === kind;
		const byId = all.filter((one) => one.id === id && isKind(one));
		const named = byId.length > 0 ? byId : (exact.get(wordsOfName(id).join(' ')) ?? []).filter(isKind);
		heard.push({ from: found.from, to: found.to, found: named, match: 'exact' });
	}
	return heard;
}

function next(text: Spoken) {
	return text.take(/(?:\b(door|area|person|department) )?"([^"]*)"/);
}

/** Takes every whole name or id, the longest first. Of single words only those that questions do not use anyway. */
export function takeWhole(rollout: Rollout, question: Spoken): NameHeard[] {
	const { exact, longest, byWord } = indexOf(rollout);
	const heard: NameHeard[] = [];
	for (const run of question.runs()) {
		for (let place = 0; place < run.length; place++) {
			for (let count = Math.min(longest, run.length - place); count > 0; count--) {
				const words = run.slice(place, place + count);
				const text = words.map((word) => word.text).join(' ');
				const found = exact.get(text);
				if (!found || (count === 1 && isDoubtful(run, place, found))) continue;
				const part = partOf(words);
				question.takePart(part);
				const isLiteral = found.some((one) => one.words.join(' ') === text || wordsOfName(one.id).join(' ') === text);
				// Whole but for a plural: longer names with these words are offered beside it.
				const longer = isLiteral ? [] : havingAll(byWord, words);
				heard.push({ ...part, found: [...new Set([...ranked(found, words), ...longer])], match: 'exact' });
				place += count - 1;
				break;
			}
		}
	}
	return heard;
}

/** A single word that questions use anyway, or an id in the midst of other words, that may be a part of a longer name. */
function isDoubtful(run: readonly Word[], place: number, found: readonly Named[]): boolean {
	const word = run[place];
	if (word === undefined || spoken.has(word.text)) return true;
	const isName = found.some(({ words }) => words.length === 1 && words[0] === word.text);
	return !isName && (isContent(run[place - 1]) || isContent(run[place + 1]));
}

/** `room` and `gate` are words of names as much as of questions. */
function isContent(word: Word | undefined): boolean {
	return word !== undefined && (!spoken.has(word.text) || word.text === 'room' || word.text === 'gate');
}

/** Takes what is left and could mean a name: some of its words, or nearly spelled so. */
export function takePartial(rollout: Rollout, text: Spoken): NameHeard[] {
	const index = indexOf(rollout);
	return text.runs().flatMap((run) => contentRuns(run).flatMap((words): NameHeard[] => heardIn(index, text, words)));
}

/** Words in a row that say something; `room` in the middle of a name is kept, at its ends words of questions are not. */
function contentRuns(run: readonly Word[]): Word[][] {
	const runs: Word[][] = [];
	let now: Word[] = [];
	for (const word of run) {
		if (isContent(word)) now.push(word);
		else if (now.length > 0) {
			runs.push(now);
			now = [];
		}
	}
	if (now.length > 0) runs.push(now);
	return runs.filter((words) => words.some(({ text }) => !spoken.has(text)));
}

function heardIn(index: Index, text: Spoken, words: readonly Word[]): NameHeard[] {
	if (words.every(({ text: word }) => word.length < 2)) return [];
	const having = havingAll(index.byWord, words);
	if (having.length > 0) {
		text.takePart(partOf(words));
		return [{ ...partOf(words), found: ranked(having, words), match: 'part' }];
	}
	const near = nearest(index, words);
	if (near.length > 0) {
		text.takePart(partOf(words));
		return [{ ...partOf(words), found: near, match: 'near' }];
	}
	// Two names in a row, or a name and a word that is none: part by part, from the longest on.
	for (let count = words.length - 1; count > 0; count--) {
		const head = heardIn(index, text, words.slice(0, count));
		if (head.length > 0) return [...head, ...heardIn(index, text, words.slice(count))];
	}
	return words.length > 1 ? heardIn(index, text, words.slice(1)) : [];
}

/** Names that have every one of some words, but for plurals. */
function havingAll(byWord: Index['byWord'], words: readonly Word[]): Named[] {
	const lists = words.map(({ text }) => new Set([...(byWord.get(text) ?? []), ...(byWord.get(singular(text)) ?? [])]));
	const [first = new Set<Named>(), ...others] = lists;
	return [...first].filter((one) => others.every((list) => list.has(one)));
}

/** Whole names before parts of longer ones, and doors and areas before people. */
function ranked(found: readonly Named[], words: readonly Word[]): Named[] {
	const kinds: readonly NamedKind[] = ['door', 'area', 'person', 'department', 'holiday'];
	const over = (one: Named) => Math.max(0, one.words.length - words.length);
	return [...found].sort((a, b) => over(a) - over(b) || kinds.indexOf(a.kind) - kinds.indexOf(b.kind));
}

/** Names in which each word is nearly one of theirs; every name where nothing is near is left out. */
function nearest({ all }: Index, words: readonly Word[]): Named[] {
	const cost = (one: Named): number => {
		let sum = 0;
		for (const { text: word } of words) {
			const most = word.length >= 8 ? 2 : word.length >= 4 ? 1 : 0;
			let best = Infinity;
			for (const known of one.words) {
				if (Math.abs(known.length - word.length) > most) continue;
				const edits = singular(known) === singular(word) ? 0 : distance(known, word);
				if (edits <= most && edits < best) best = edits;
			}
			if (best === Infinity) return Infinity;
			sum += best;
		}
		return sum;
	};
	const costs = all.flatMap((one) => {
		const sum = cost(one);
		return sum === Infinity ? [] : [{ one, sum }];
	});
	return costs
		.sort((a, b) => a.sum - b.sum || a.one.words.length - b.one.words.length)
		.slice(0, 8)
		.map(({ one }) => one);
}

function partOf(words: readonly Word[]): Part {
	return { from: words[0]?.from ?? 0, to: words.at(-1)?.to ?? 0 };
}

/** How a thing is written in a question so that it means nothing else. */
export function written({ kind, id }: Named): string {
	return kind === 'holiday' ? `"${id}"` : `${kind} "${id}"`;
}
