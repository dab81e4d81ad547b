import type { Rollout } from '../../document/schema';
import type { EnrollmentModel } from '../model';
import type { Shortfall } from '../shortfalls';
import type { EntryChange } from './entry-change';
import type { Profile } from './presence';
import type { Takes } from './price';
import type { RemedyKind } from './remedy-kind';

/**
 * Something that could be changed for a shortfall, from a little to a lot; what it does and costs hangs on the amount, a whole number
 * from 1. A rollout in which levers were pulled before can be pulled on further: `change` looks at the rollout that it is given.
 */
export interface Lever {
	readonly kind: RemedyKind;
	/** The same text for levers that do the same. */
	readonly key: string;
	readonly most: number;
	/** How many it could help, for choosing which to try where there is no time for all. */
	readonly reach: number;
	/** Undefined where the document does not admit the amount. */
	change(rollout: Rollout, amount: number): readonly EntryChange[] | undefined;
	/** Minutes that the amount stands for, what it takes, and the price of that by the cost table. */
	minutes(amount: number): number;
	takes(amount: number): Takes;
	/** Minutes of lane time that it adds at most; undefined where it helps otherwise than by adding some. */
	readonly adds?: (amount: number) => number;
	cost(amount: number): number;
	does(amount: number): string;
}

/** A lever before it is priced. */
export type RawLever = Omit<Lever, 'cost'>;

/** What levers are made from: the people of a shortfall, alike ones together, and the time that is asked for. */
export interface LeverTerms {
	readonly model: EnrollmentModel;
	readonly shortfall: Shortfall;
	readonly profiles: readonly Profile[];
	readonly missing: readonly string[];
	/** Minutes at a station that those who are missing take, with turnover, on the grid; and those of everybody unbooked. */
	readonly minutesMissing: number;
	readonly minutesOfAll: number;
	/** People with a fixed booking that breaks a rule. */
	readonly broken: ReadonlySet<string>;
	readonly isLarge: boolean;
}
