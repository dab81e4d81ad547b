import type { CheckInput } from '../checks/define-check';
import type { SpanSet } from '../calendar/spans';

/** An edit by its name, with what it takes. */
export interface EditCall {
	readonly edit: string;
	readonly params: unknown;
}

/** A change that might clear a finding; whether it does is found out by making it and checking again. */
export interface Candidate {
	/** The kind of change, such as `widen-schedule`. */
	readonly way: string;
	/** What is done, as a sentence without a stop. */
	readonly does: string;
	readonly edits: readonly EditCall[];
	/** True where the change says something about the world (who works when) and not who may open what. */
	readonly isFact?: boolean;
	/** What a person should know before choosing it, beyond who gains and loses what. */
	readonly notes?: readonly string[];
	/** Lower goes first, before anything is counted; 0 where left out. */
	readonly order?: number;
}

/** Instants at which somebody needs a door, for the finding to be cleared. */
export interface NeededAccess {
	readonly person: string;
	readonly door: string;
	readonly spans: SpanSet;
}

/** Everything that might clear one finding. */
export interface Proposal {
	readonly candidates: readonly Candidate[];
	/** What the finding asks for; what a change opens beyond it counts against the change. */
	readonly needed: readonly NeededAccess[];
	/** Why nothing can clear it, where that is known. */
	readonly whyNone?: string;
}

/** The finding to clear, by the ids of its subject, and what checks may look at. */
export interface MendInput extends CheckInput {
	readonly subject: Readonly<Record<string, string>>;
}

/**
 * Ways to clear the findings of one code: one file in this folder, named after the code, its default export made by
 * `defineMend`.
 */
export interface MendDefinition {
	readonly code: string;
	/** The keys of the finding's subject. */
	readonly asks: readonly string[];
	propose(input: MendInput): Proposal;
}

/** Gives ways to mend their types; the identity otherwise. */
export function defineMend(definition: MendDefinition): MendDefinition {
	return definition;
}
