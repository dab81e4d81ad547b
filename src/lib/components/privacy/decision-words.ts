import type { MarkState } from '$lib/components/sheet/mark';

/** How a decision about consent is said and marked. A refusal is no failure: it leads to another credential. */
export const decisionWords: Readonly<
	Record<'given' | 'declined' | 'withdrawn' | 'none', { readonly word: string; readonly state: MarkState }>
> = {
	given: { word: 'given', state: 'holds' },
	declined: { word: 'declined', state: 'note' },
	withdrawn: { word: 'withdrawn', state: 'note' },
	none: { word: 'not asked yet', state: 'open' }
};
