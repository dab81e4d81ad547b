/** An explanation as plain data, ready to be drawn: the chain from a person to a door, link by link. */

/** What a link is. */
export type LinkRole = 'person' | 'assignment' | 'profile' | 'door group' | 'schedule' | 'hours' | 'door';

export interface ExplainedLink {
	readonly role: LinkRole;
	readonly name: string;
	readonly note: string;
	/** Path below the rollout at which it is edited. */
	readonly path: string;
	/** The word at the stroke that breaks the chain here; null where it holds. */
	readonly broken: string | null;
	/** After a break: it is shown, and does not count. */
	readonly isBeyond: boolean;
}

export interface ExplainedChain {
	readonly links: readonly ExplainedLink[];
	readonly holds: boolean;
	/** Why it is broken, as a sentence; empty where it holds. */
	readonly detail: string;
}

export interface ExplainedView {
	readonly state: 'may' | 'may not' | 'may, cannot get there';
	readonly sentence: string;
	/** Clock changes, dates beyond the horizon or the holiday list. */
	readonly notes: readonly string[];
	/** The ways that hold, or else the broken ones, the nearest first. */
	readonly chains: readonly ExplainedChain[];
	/** Ways that are not drawn, since nearer ones are. */
	readonly further: readonly string[];
	/** Doors from outside through this one; or those on the way that do not open. */
	readonly route: readonly { readonly id: string; readonly name: string; readonly opens: boolean }[];
	/** The next moment, as a local date-time and in words; null where there is none in the horizon. */
	readonly next: { readonly at: string; readonly words: string; readonly canReach: boolean } | null;
}
