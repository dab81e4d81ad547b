import type { LocalDate } from '../calendar/local-date';
import type { ColumnField, PersonField } from './fields';
import type { RosterProblem } from './problem';

/**
 * A person as a roster has them. Only the fields for which the roster has a column are there; null where the cell is
 * empty or could not be read (the problems tell which).
 */
export interface RosterPerson {
	readonly id: string;
	readonly name?: string | null;
	readonly department?: string | null;
	readonly job?: string | null;
	readonly email?: string | null;
	readonly startsOn?: LocalDate | null;
	readonly leavesOn?: LocalDate | null;
	readonly shiftPattern?: string | null;
	readonly workAreas?: readonly string[];
	readonly wave?: string | null;
	readonly captureClass?: string | null;
	readonly needs?: readonly string[];
	readonly language?: string | null;
}

/** The value of a field of a person. */
export type RosterValue = string | null | readonly string[];

/** One column: its header as written, the field it was taken for (null: not used), and how sure that is, 0 to 1. */
export interface RosterColumn {
	readonly header: string;
	readonly field: ColumnField | null;
	readonly sure: number;
}

/** A person whose fields differ from the document's: for each of these, what stands there and what the roster says. */
export interface Move {
	readonly person: string;
	readonly fields: Readonly<Partial<Record<Exclude<PersonField, 'id'>, readonly [RosterValue, RosterValue]>>>;
}

/**
 * What taking the roster over would change. `left` are the people of the document that the roster has no row for; where
 * a row was held back that may be somebody's, nothing is said of that person.
 */
export interface RosterChanges {
	readonly joined: readonly string[];
	readonly moved: readonly Move[];
	readonly left: readonly string[];
	readonly unchanged: readonly string[];
}

/** A sheet of a workbook, and how many rows it has under its header where it is a list of people; 0 where it is none. */
export interface SheetSeen {
	readonly name: string;
	readonly rows: number;
	readonly isHidden: boolean;
}

/** Where a list came from: delimited text, or the sheet of a workbook (with all sheets that could have been meant). */
export type RosterOrigin =
	| {
			/** WHATWG label, lower case. */
			readonly encoding: string;
			/** The character itself. */
			readonly delimiter: string;
			readonly sheet?: never;
			readonly sheets?: never;
	  }
	| {
			readonly encoding: string;
			/** The name of the sheet. */
			readonly sheet: string;
			readonly sheets: readonly SheetSeen[];
			readonly delimiter?: never;
	  };

/** What a roster says: a proposal, nothing of it applied. */
export type RosterAnswer = RosterOrigin & RosterSaid;

interface RosterSaid {
	readonly columns: readonly RosterColumn[];
	readonly people: readonly RosterPerson[];
	readonly problems: readonly RosterProblem[];
	readonly changes: RosterChanges;
}
