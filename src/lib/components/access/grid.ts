/** What the sheet "Who can open what" shows, as plain data. */

/** A part of a day's column in a week picture: column 0 is Monday, minutes after midnight. */
export interface CellBar {
	readonly day: number;
	readonly from: number;
	readonly to: number;
}

export interface GridCell {
	/** When all people of the row may open all doors of the column. */
	readonly all: readonly CellBar[];
	/** When some of them, or some of the doors, only. */
	readonly some: readonly CellBar[];
	readonly words: string;
}

export interface GridColumn {
	readonly id: string;
	readonly name: string;
	readonly doors: number;
}

export interface GridRow {
	/** Name of the department, job or wave, or id of the person; empty for people who have none. */
	readonly key: string;
	readonly name: string;
	readonly note: string;
	/** People of the row. */
	readonly listed: number;
	/** Those of them employed on some day of the week. */
	readonly people: number;
	/** One for each column. */
	readonly cells: readonly GridCell[];
}

/** One way from people to a door: assignment, profile, door group, schedule, hours; or where it breaks off. */
export interface Chain {
	readonly assignment: string;
	readonly who: string;
	/** People of the row whom it matches. */
	readonly people: number;
	readonly dates: string;
	readonly profile: string;
	readonly profileName: string;
	/** Null where the profile holds none of the doors. */
	readonly entry: {
		readonly groupName: string;
		/** Doors of the column that are in the group. */
		readonly doors: readonly string[];
		readonly schedule: string;
		readonly scheduleName: string;
	} | null;
	readonly state: 'open' | 'not-in-force' | 'closed' | 'not-granted';
	/** When it is open in this week. */
	readonly hours: string;
	/** Holidays of this week and what the schedule does on them. */
	readonly holidays: readonly string[];
}

/** Why a cell is as it is. */
export interface Reason {
	readonly row: string;
	readonly column: string;
	readonly people: number;
	/** People whom no assignment that opens anything here matches: how many, and some by name. */
	readonly without: { readonly count: number; readonly names: readonly string[] };
	readonly words: string;
	readonly doors: readonly string[];
	readonly open: readonly Chain[];
	readonly broken: readonly Chain[];
}
