import type { LedgerState } from '$lib/charts/ledger';
import type { MarkState } from '$lib/components/sheet/mark';

/** How a template stands, in words. */
export const stateWords: Readonly<Record<LedgerState, string>> = {
	overdue: 'overdue',
	due: 'due within 30 days',
	held: 'held',
	kept: 'kept',
	erased: 'erased'
};

/** The mark that goes with a state. */
export const stateMarks: Readonly<Record<LedgerState, MarkState>> = {
	overdue: 'fails',
	due: 'watch',
	held: 'note',
	kept: 'holds',
	erased: 'open'
};
