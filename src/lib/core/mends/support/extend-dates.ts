import { CoverageFinder } from '../../access/coverage';
import { AccessModel } from '../../access/model';
import { dateOf } from '../../calendar/local-date';
import { nameOf } from '../../document/names';
import type { Candidate, EditCall } from '../define-mend';
import { applied } from './apply';
import { dayPieces } from './day-pieces';
import { setField } from './edit-calls';
import { type Situation, situationOfShifts } from './situation';
import { widened } from './widen';

/**
 * Moves the dates of an assignment that matches somebody so far that it is in force when they need it; and where that is not
 * enough, lets its schedules be open at what is still missing.
 */
export function extended(situation: Situation): Candidate[] {
	const { rollout, one } = situation;
	return one.assignments.flatMap((place): Candidate[] => {
		const assignment = rollout.assignments[place];
		const moved = assignment && datesFor(situation, assignment);
		if (!assignment || !moved) return [];
		const profile = nameOf(rollout.accessProfiles, assignment.accessProfile);
		const edits = Object.entries(moved).map(([field, date]) => setField('assignments', assignment.id, [field], date));
		const dates = [
			...(moved.from === undefined ? [] : [`begin on ${moved.from} instead of ${String(assignment.from)}`]),
			...(moved.until === undefined ? [] : [`end on ${moved.until} instead of ${String(assignment.until)}`])
		].join(' and ');
		const does = `Let assignment ${assignment.id} of profile ${profile} ${dates}`;
		return [{ way: 'extend-assignment', does, edits }, ...widenedAfter(situation, does, edits)];
	});
}

function datesFor(
	{ model, needs }: Situation,
	{ from, until }: { readonly from: string | null; readonly until: string | null }
): { readonly from?: string; readonly until?: string } | null {
	const days = dayPieces(model, [...needs.byDoor.values()].flat()).map(({ day }) => day);
	if (days.length === 0) return null;
	const first = dateOf(days.reduce((a, b) => (a < b ? a : b)));
	const last = dateOf(days.reduce((a, b) => (a > b ? a : b)));
	const isEarlier = from !== null && first < from;
	const isLater = until !== null && last > until;
	return isEarlier || isLater ? { ...(isEarlier ? { from: first } : {}), ...(isLater ? { until: last } : {}) } : null;
}

function widenedAfter(
	{ rollout, model: before, person, shifts }: Situation,
	does: string,
	edits: readonly EditCall[]
): Candidate[] {
	const after = applied(rollout, edits);
	if (!after.ok || shifts.length === 0) return [];
	const model = new AccessModel(after.value, undefined, [person], before);
	const left = situationOfShifts(model, new CoverageFinder(model), person, () => true);
	return left
		? widened(left).map((more) => ({
				way: 'extend-and-widen',
				does: `${does}; ${more.does}`,
				edits: [...edits, ...more.edits]
			}))
		: [];
}
