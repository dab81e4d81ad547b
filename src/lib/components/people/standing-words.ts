import type { MarkState } from '$lib/components/sheet/mark';

/** How the standing of a person before any plan is said and marked. */
export const standingWords: Readonly<
	Record<'to-book' | 'declined' | 'enrolled', { readonly word: string; readonly state: MarkState }>
> = {
	'to-book': { word: 'to be enrolled', state: 'open' },
	declined: { word: 'alternative credential', state: 'note' },
	enrolled: { word: 'enrolled', state: 'holds' }
};
