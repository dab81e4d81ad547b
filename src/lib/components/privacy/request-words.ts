import type { MarkState } from '$lib/components/sheet/mark';

export const requestKindWords: Readonly<Record<string, string>> = {
	access: 'Access: what is held on me',
	erasure: 'Erasure',
	withdrawal: 'Withdrawal of consent',
	objection: 'Objection'
};

/** How a request stands, as a mark and in a word. */
export const requestStates: Readonly<Record<string, { readonly state: MarkState; readonly word: string }>> = {
	overdue: { state: 'fails', word: 'overdue' },
	due: { state: 'watch', word: 'due within 7 days' },
	open: { state: 'open', word: 'open' },
	'no-date': { state: 'watch', word: 'no date' },
	answered: { state: 'holds', word: 'answered' }
};
