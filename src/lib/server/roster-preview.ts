import { type RosterConsequence, rosterConsequences } from '../core/answers/support/roster-consequences';
import type { LocalDate } from '../core/calendar/local-date';
import type { ReadDocument } from '../core/document/read';
import type { Rollout } from '../core/document/schema';
import { applyEdit } from '../core/edits';
import type { Fault } from '../core/kernel/fault';
import { type Result, ok } from '../core/kernel/result';
import type { Work } from '../core/kernel/work';
import type { Correction } from '../core/roster/corrections';
import { type Duplicates, duplicatesOf } from '../core/roster/duplicates';
import { readRoster } from '../core/roster/import-roster';
import { type WrittenMap, mapOf, shapeOf } from '../core/roster/list-map';
import { type OddRows, oddRowsOf } from '../core/roster/odd-rows';
import { type Choice, type Origins, type RosterConflict, conflictsOf, undisputed } from '../core/roster/origins';
import type { RosterAnswer } from '../core/roster/roster-answer';
import { readRosterMap } from '../core/roster/roster-map';
import type { Renumber } from '../core/roster/taking-over';

/** What somebody said about a list that is being looked at. */
export interface SaidOfList {
	/** See the map of the roster intake. */
	readonly map: Readonly<Record<string, unknown>>;
	readonly corrections: readonly Correction[];
	/** Pairs of ids that are two people. */
	readonly apart: readonly (readonly [string, string])[];
	/** People who have another number now. */
	readonly renumber: readonly Renumber[];
	/** What is chosen where the list differs from what was entered here, by `conflictKey`. */
	readonly choices: readonly (readonly [string, Choice])[];
}

export const nothingSaid: SaidOfList = { map: {}, corrections: [], apart: [], renumber: [], choices: [] };

/** A list as it is looked at before it is taken over. */
export interface RosterPreview {
	readonly answer: RosterAnswer;
	/** What would change, what is in conflict left as it was chosen, and as it is here where nothing was chosen yet. */
	readonly undisputed: RosterAnswer['changes'];
	readonly conflicts: readonly RosterConflict[];
	readonly duplicates: Duplicates;
	readonly oddRows: OddRows;
	/** How the list was taken, for the next one of its shape; the shape is null where it has no headers. */
	readonly map: WrittenMap;
	readonly shape: string | null;
	readonly following: readonly RosterConsequence[];
	/** Why what follows could not be reckoned: it could not be taken over as it stands. */
	readonly faults: readonly Fault[];
}

export interface PreviewInput {
	readonly bytes: Uint8Array;
	readonly said: SaidOfList;
	readonly origins: Origins;
	readonly today: LocalDate;
}

const most = { duplicates: 50, oddRows: 50 };

/** Reads a list and all that is shown of it. Refuses what `readRoster` refuses, and numbers that cannot be changed. */
export function previewRoster(
	open: ReadDocument,
	{ bytes, said, origins, today }: PreviewInput,
	work: Work
): Result<RosterPreview> {
	const map = readRosterMap(said.map);
	if (!map.ok) return map;
	const base =
		said.renumber.length === 0
			? ok(open)
			: applyEdit(open, 'apply-roster', { people: [], renumber: said.renumber.map((one) => ({ ...one })) });
	if (!base.ok) return base;
	const into = base.value.rollout;
	const { corrections, apart } = said;
	const read = readRoster(bytes, { map: said.map, into, corrections, apart, work });
	if (!read.ok) return read;
	const { answer } = read.value;
	const conflicts = conflictsOf(answer.changes, into, renumbered(origins, said.renumber));
	const changes = undisputed(answer.changes, conflicts, new Map(said.choices));
	const following = rosterConsequences(base.value, { ...answer, changes }, today, today);
	return ok({
		answer,
		undisputed: changes,
		conflicts,
		duplicates: duplicatesOf(read.value, into, most.duplicates),
		oddRows: oddRowsOf(read.value, most.oddRows),
		map: mapOf(answer.columns, map.value),
		shape: shapeOf(answer.columns) ?? null,
		following: following.ok ? following.value : [],
		faults: following.ok ? [] : following.faults
	});
}

/** As `previewRoster`, of a rollout alone: a thread has no more of it. */
export function previewOfRollout(rollout: Rollout, input: PreviewInput, work: Work): Result<RosterPreview> {
	// A rollout is a document in which nothing is left out.
	return previewRoster({ document: rollout, rollout }, input, work);
}

/** What is known of people, under the numbers that they get. */
function renumbered(origins: Origins, renumber: readonly Renumber[]): Origins {
	if (renumber.length === 0) return origins;
	const numbers = new Map(renumber.map(({ at, to }) => [at, to]));
	const moved = <T extends { readonly person: string }>(list: readonly T[]): readonly T[] =>
		list.map((one) => ({ ...one, person: numbers.get(one.person) ?? one.person }));
	return { fields: moved(origins.fields), added: moved(origins.added), kept: moved(origins.kept) };
}
