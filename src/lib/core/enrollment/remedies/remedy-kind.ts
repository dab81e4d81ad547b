/** What a remedy does, in kinds. */
export type RemedyKind =
	'open-longer' | 'open-anew' | 'one-more-lane' | 'away-limit' | 'due-date' | 'serve-need' | 'let-move';
