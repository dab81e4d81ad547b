import type { LocalDate } from '../core/calendar/local-date';
import { type Result, ok } from '../core/kernel/result';
import { importRoster } from '../core/roster/import-roster';
import { shapeOf } from '../core/roster/list-map';
import { agreements, decided } from '../core/roster/origins';
import { takingOver } from '../core/roster/taking-over';
import { isArchive } from '../core/roster/workbook/read-workbook';
import { todayAt } from './clock';
import { previewOf } from './jobs/roster-readings';
import { type OpenRollout, getRollout } from './open-rollouts';
import { type Outcome, outcomeOf } from './outcome';
import { type RosterDraft, keepRoster, newRoster } from './roster-drafts';
import { forgetShape, rememberDecisions, rememberShape, rosterMemory } from './roster-memory';
import { originsEntered } from './roster-origins';
import { type SaidOfList, nothingSaid } from './roster-preview';
import { editRollout } from './change-rollouts';

/** What the sheet of the roster does with a list: look at it, say something about it, take it over. */

/** A list that was chosen, read by what is remembered for its shape where that fits; not kept yet. */
export function chosenRoster(open: OpenRollout, fileName: string, bytes: Uint8Array): RosterDraft {
	const draft = newRoster(open.id, fileName, bytes);
	const memory = rosterMemory(open.id);
	const said: SaidOfList = { ...nothingSaid, apart: memory.apart };
	const shape = memory.shapes.length === 0 ? undefined : shapeOfList(bytes);
	const known = memory.shapes.find((one) => one.shape === shape);
	if (!known) return { ...draft, said };
	// The sheet of the last workbook may be called otherwise in this one.
	const sheetless = Object.fromEntries(Object.entries(known.map).filter(([key]) => key !== 'sheet'));
	const map = [known.map, sheetless].find((one) => importRoster(startOf(bytes), { map: one }).ok);
	return map === undefined ? { ...draft, said } : { ...draft, said: { ...said, map }, readAs: known.fileName };
}

/** What is said of a list now; refused, and not kept, where the list cannot be read so. */
export async function sayOfRoster(
	open: OpenRollout,
	draft: RosterDraft,
	said: SaidOfList
): Promise<Result<RosterDraft>> {
	const next = { ...draft, said };
	const read = await previewOf(open, next, todayAt(open.rollout.site.timeZone));
	return read.ok ? ok(keepRoster(next)) : read;
}

/** Keeps how the columns of a list are taken for the next one of its shape; forgotten where nothing is said of them any more. */
export function rememberColumns({ rollout, bytes, said, fileName }: RosterDraft, who: string): void {
	const shape = shapeOfList(bytes);
	if (shape === undefined) return;
	if (Object.keys(said.map).length === 0) forgetShape(rollout, shape);
	else rememberShape(rollout, { shape, map: said.map, fileName, at: new Date().toISOString(), who });
}

/**
 * Takes a list over as one change, or not at all, and keeps what was decided about it. `value` is null where there was nothing to
 * change. Refused while a value that was entered here differs and nobody chose.
 */
export async function takeRosterOver(
	open: OpenRollout,
	draft: RosterDraft,
	leavesOn: LocalDate | undefined,
	who: string
): Promise<Outcome<OpenRollout>> {
	const read = await previewOf(open, draft, todayAt(open.rollout.site.timeZone));
	if (!read.ok) return outcomeOf(read);
	const { answer, conflicts } = read.value;
	const { choices, renumber, apart } = draft.said;
	const settled = decided(answer, conflicts, new Map(choices));
	if (!settled.ok) return outcomeOf(settled, () => 'conflict');
	const { people, was, leave } = takingOver({ people: answer.people, changes: settled.value.changes }, { leavesOn });
	const agreed = agreements(answer.people, open.rollout, originsEntered(open.id));
	const isNothing = people.length === 0 && leave === null && renumber.length === 0;
	if (!isNothing) {
		const outcome = editRollout(open.id, 'apply-roster', { people, was, leave, renumber }, who);
		if (!outcome.ok) return outcome;
	}
	const after = getRollout(open.id) ?? open;
	const ids = new Set(after.rollout.people.map(({ id }) => id));
	rememberDecisions(open.id, { kept: [...agreed, ...settled.value.kept], apart }, (id) => ids.has(id));
	return { ok: true, value: after };
}

/** So much of a long text is read to tell its shape. */
const startLength = 131_072;

function shapeOfList(bytes: Uint8Array): string | undefined {
	const read = importRoster(startOf(bytes));
	return read.ok ? shapeOf(read.value.columns) : undefined;
}

/** The beginning of a text up to a line end; a workbook as a whole. */
function startOf(bytes: Uint8Array): Uint8Array {
	if (bytes.length <= startLength || isArchive(bytes)) return bytes;
	const end = bytes.lastIndexOf(0x0a, startLength);
	if (end < 0) return bytes;
	// In UTF-16 with the lower byte first, a line feed is followed by a zero.
	return bytes.subarray(0, bytes[end + 1] === 0 ? end + 2 : end + 1);
}
