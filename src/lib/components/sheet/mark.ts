/**
 * How something stands. `holds`, `watch`, `fails` as on a marked-up drawing; `note` is good to know, `open` is not
 * known yet.
 */
export type MarkState = 'holds' | 'watch' | 'fails' | 'note' | 'open';

/** The word that goes with a mark where nothing better is said. */
export const markWords: Readonly<Record<MarkState, string>> = {
	holds: 'holds',
	watch: 'watch',
	fails: 'fails',
	note: 'note',
	open: 'open'
};
