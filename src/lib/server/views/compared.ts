import compareGroups from '$lib/core/answers/compare-groups';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import type { ToldGroup, ToldGroups } from '$lib/core/access/told-groups';
import type { Rollout } from '$lib/core/document/schema';
import { fault } from '$lib/core/kernel/fault';
import { issuedRollout, latestIssue, rolloutAt } from '../issues';
import { runQuestion } from '../jobs/run-question';
import type { OpenRollout } from '../open-rollouts';
import { type Outcome, outcomeOf, refuse } from '../outcome';

/** What the groups shown are narrowed to; empty is no limit. */
export interface GroupFilter {
	readonly person: string;
	readonly department: string;
	readonly door: string;
	readonly does: string;
}

/**
 * A state of a rollout by its name in an address: `now`, `B` (an issued revision), `17` (after that change of the record).
 * Empty is the latest issue.
 */
export function stateOf(
	open: OpenRollout,
	name: string
): Outcome<{ readonly label: string; readonly rollout: Rollout }> {
	if (name === 'now') return { ok: true, value: { label: 'now', rollout: open.rollout } };
	if (/^\d+$/.test(name)) return labelled(`after change ${name}`, rolloutAt(open, Number(name)));
	const letter = name === '' ? latestIssue(open.id)?.letter : name;
	if (letter === undefined) return refuse('not-found', fault(['since'], null, 'a revision; none was issued yet'));
	return labelled(`revision ${letter}`, issuedRollout(open.id, letter));
}

function labelled(label: string, outcome: Outcome<Rollout>): Outcome<{ label: string; rollout: Rollout }> {
	return outcome.ok ? { ok: true, value: { label, rollout: outcome.value } } : outcome;
}

/** The rollout in the bytes of a document, read only: nothing is kept. Every fault at once. */
export function readOnly(bytes: Uint8Array): Outcome<Rollout> {
	const read = readRollout(bytes);
	return read.ok ? { ok: true, value: read.value.rollout } : outcomeOf(read);
}

const given = new WeakMap<Rollout, { readonly before: Rollout; readonly groups: Promise<Outcome<ToldGroups>> }>();

/** The groups of changes between two states; those of large rollouts are worked out outside of the server's thread. */
export function groupsBetween(before: Rollout, after: Rollout): Promise<Outcome<ToldGroups>> {
	const known = given.get(after);
	if (known?.before === before) return known.groups;
	const groups = runQuestion(compareGroups, before, { with: after }).then((result) => outcomeOf(result));
	given.set(after, { before, groups });
	groups.catch(() => given.delete(after));
	return groups;
}

/** The groups that a filter leaves. */
export function narrowed(
	groups: readonly ToldGroup[],
	filter: GroupFilter,
	[before, after]: readonly [Rollout, Rollout]
): readonly ToldGroup[] {
	const { person, department, door, does } = filter;
	const inDepartment =
		department === ''
			? undefined
			: new Set([...before.people, ...after.people].flatMap((one) => (one.department === department ? [one.id] : [])));
	return groups.filter(
		(group) =>
			(person === '' || group.people.includes(person)) &&
			(door === '' || group.doors.includes(door)) &&
			(does !== 'lose' || group.lost !== null) &&
			(does !== 'gain' || group.gained !== null) &&
			(inDepartment === undefined || group.people.some((id) => inDepartment.has(id)))
	);
}
