import type { MarkState } from '$lib/components/sheet/mark';
import type { StepState } from '$lib/core/privacy/erasure-orders';

/** How a place of a work order stands, in words and by its mark. */
export const stepWords: Readonly<Record<StepState, { readonly word: string; readonly state: MarkState }>> = {
	open: { word: 'to do', state: 'open' },
	offline: { word: 'offline, stays open', state: 'watch' },
	waiting: { word: 'backup not expired', state: 'open' },
	expired: { word: 'backup expired, to be confirmed', state: 'watch' },
	reported: { word: 'waits for the second pair of eyes', state: 'note' },
	erased: { word: 'erased', state: 'holds' }
};

/** The name of a kind of place. */
export const kindWords = {
	controller: 'controller',
	reader: 'reader',
	station: 'enrollment station',
	backup: 'backup',
	other: 'other'
} as const;
