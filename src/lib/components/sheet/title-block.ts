import { getContext, setContext } from 'svelte';
import type { MarkState } from './mark';

/** What the corner of every sheet and print tells, so that a print can be traced back to the state it shows. */
export interface TitleBlockFacts {
	/** The rollout's name. */
	readonly rollout: string;
	/** The site's name. */
	readonly site: string;
	/** Short hash of the document. */
	readonly revision: string;
	/** The head of the change record, number and first digits of its seal, where there is one: `12 · 3f09ab77c1`. */
	readonly record?: string;
	/** Local date and time with zone, as shown: `25 Nov 2026, 11:20 CST`. */
	readonly shownAt: string;
	/** Who looks at it or prints it. */
	readonly by: string;
	/** How the checks stand: `3 fail`. */
	readonly checked?: { readonly text: string; readonly state: MarkState };
}

const key = Symbol('title block');

/** Sets the facts for all sheets below; a function, so that they follow the data. Call it in a layout. */
export function setTitleBlock(facts: () => TitleBlockFacts): void {
	setContext(key, facts);
}

/** The facts that a layout above has set; none on pages that belong to no rollout. */
export function getTitleBlock(): (() => TitleBlockFacts) | undefined {
	return getContext(key);
}
