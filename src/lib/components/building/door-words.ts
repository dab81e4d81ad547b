/** How the words of the document for doors are said to people. */
export const exitWays = [
	{ value: 'free', label: 'free exit, no credential' },
	{ value: 'reader', label: 'by a reader' }
];

export const identifyWays = [
	{ value: 'finger', label: 'finger' },
	{ value: 'finger-and-pin', label: 'finger and PIN' },
	{ value: 'card', label: 'card' },
	{ value: 'card-and-finger', label: 'card and finger' }
];

/** The label of a word in one of the lists above; the word itself where it is in none. */
export function saidAs(ways: readonly { value: string; label: string }[], word: string): string {
	return ways.find(({ value }) => value === word)?.label ?? word;
}
