import type { CoverageFinder } from '../access/coverage';
import type { AccessModel } from '../access/model';
import type { Rollout } from '../document/schema';
import type { Finding, Severity } from '../kernel/finding';
import type { Kept } from './support/kept';

/** What checks may look at: the rollout, and the access model that they share so that it is computed once. */
export interface CheckInput {
	readonly rollout: Rollout;
	readonly access: AccessModel;
	readonly coverage: CoverageFinder;
	/** What checks keep from one state of a rollout for the next. */
	readonly kept: Kept;
}

/** A case that a check found, without its sentence. */
export interface Case {
	readonly subject: Finding['subject'];
	readonly dates?: readonly string[];
	readonly count?: number;
	/** Typed facts that the message needs beyond the subject. */
	readonly facts?: Readonly<Record<string, string | number>>;
}

/**
 * One finding code: one file in this folder, named after the code, its default export made by `defineCheck`. Help
 * pages are made from these texts.
 */
export interface Check {
	readonly code: string;
	readonly severity: Severity;
	/** What it says, in a few words: the heading on screens. */
	readonly title: string;
	/** Why it matters, in one or two sentences. */
	readonly why: string;
	/** How to mend it, in one or two sentences. */
	readonly mend: string;
	/** Where the rule comes from: the document format, a standard, or common practice. */
	readonly source: string;
	/** The screen where it is mended, as the path below a rollout, such as `schedules/office`. */
	mendAt(subject: Finding['subject']): string;
	/** Every case; one per subject. Async where it loads a large table. */
	find(input: CheckInput): readonly Case[] | Promise<readonly Case[]>;
	/**
	 * For a check that looks at the document alone: all that its cases and sentences depend on. While every part is the same
	 * (the same object, or an equal text), they are not worked out again.
	 */
	dependsOn?(rollout: Rollout): readonly unknown[];
	/**
	 * For a check that gives the same case objects again for what is unchanged: the lists whose names its sentences use beside
	 * what the case says. While they are the same objects, the same case has the same sentence.
	 */
	tellsFrom?(rollout: Rollout): readonly unknown[];
	/** The sentence of one case; names things as people do. */
	message(found: Case, rollout: Rollout): string;
}

/** Gives a check its types; the identity otherwise. */
export function defineCheck(check: Check): Check {
	return check;
}
