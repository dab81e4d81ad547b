import type { z } from 'zod';
import type { RolloutDocument } from '../document/schema';
import type { PathStep } from '../kernel/fault';
import type { Result } from '../kernel/result';
import type { LocalDate } from '../calendar/local-date';

/**
 * A kind of change to a document: one file in this folder, its default export made by `defineEdit`. It returns a new
 * document in which everything untouched is the same object, so that the store can tell which entries changed.
 */
export interface Edit<Params> {
	readonly name: string;
	/** One sentence for help pages. */
	readonly summary: string;
	readonly params: z.ZodType<Params>;
	/**
	 * The changed document, or every reason why not; the result is validated as a whole before it is kept. `others`: every
	 * edit by its name, for one that is made of several.
	 */
	apply(document: RolloutDocument, params: Params, others: EditsByName): Result<RolloutDocument>;
	/** What was done, in a few words, for the change record: `Schedule office changed`. `before` is the document it was done to. */
	describe(params: Params, before: RolloutDocument): string;
	/**
	 * Where in the changed document a parameter ended up, so that a fault there is told at the parameter that caused it.
	 */
	placed?(params: Params, after: RolloutDocument, others: EditsByName): readonly Placed[];
	/** The dates on which something is said to have happened: refused where they lie after the day of the change. */
	happened?(params: Params, others: EditsByName): readonly Happened[];
	/** What the change record keeps of the parameters; all of them where left out. The entries before and after are kept anyway. */
	remember?(params: Params): unknown;
}

export type EditsByName = ReadonlyMap<string, Edit<unknown>>;

/** The place of a parameter in the document. */
export interface Placed {
	readonly param: readonly PathStep[];
	readonly at: readonly PathStep[];
}

/** A date at a parameter on which something is said to have happened. */
export interface Happened {
	readonly param: readonly PathStep[];
	readonly on: LocalDate;
	/** What, as a sentence begins: `an erasure`. */
	readonly what: string;
}

/** Gives an edit its types; the identity otherwise. */
export function defineEdit<Params>(edit: Edit<Params>): Edit<Params> {
	return edit;
}
