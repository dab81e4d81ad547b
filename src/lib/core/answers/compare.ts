import { z } from 'zod';
import { type AlikeChanges, type DoorChange, compareAlike, inOrder } from '../access/compare';
import type { ChangedClass } from '../access/comparison';
import { toldGroups } from '../access/told-groups';
import type { Rollout } from '../document/schema';
import { ok } from '../kernel/result';
import { defineAnswer } from './define-answer';
import { groupsText } from './support/groups-text';

interface Params {
	readonly with: Rollout;
}

/** About so many characters are told at once. */
const pieceLength = 1 << 18;

/** `run` takes the earlier rollout; `with` is the later one, whose horizon is looked at. */
export default defineAnswer<Params, AlikeChanges>({
	name: 'compare',
	summary: 'Who gains and who loses which door between two documents, over the horizon of the second.',
	params: z.strictObject({
		with: z.custom<Rollout>((value) => typeof value === 'object' && value !== null).describe('The later document')
	}),
	run: (rollout, params, work) => Promise.resolve(ok(compareAlike(rollout, params.with, work))),
	isBad: () => false,
	*json(value) {
		const endingsOf = endingsIn(value);
		let piece = '{"changes":[';
		let before = '';
		for (const { person, one } of inOrder(value.classes)) {
			const start = `{"person":${JSON.stringify(person)}`;
			piece += `${before}${start}${endingsOf(one).join(`,${start}`)}`;
			before = ',';
			if (piece.length < pieceLength) continue;
			yield piece;
			piece = '';
		}
		yield `${piece}]}`;
	},
	text: (_, rollout, params) => groupsText(toldGroups(rollout, params.with))
});

/** Gives what stands after the person in the JSON of each change of a class; kept for classes of many. */
function endingsIn({ changes }: AlikeChanges): (one: ChangedClass) => readonly string[] {
	const kept = new Map<ChangedClass, readonly string[]>();
	const endingOf = (door: string, change: number | undefined) => {
		const { gained, lost, examples } = changes[change ?? -1] as DoorChange;
		const told = examples.map(({ change: which, from, to }) => ({ change: which, door, from, to }));
		return `,${JSON.stringify({ door, gained, lost, examples: told }).slice(1)}`;
	};
	return (one) => {
		const known = kept.get(one);
		if (known) return known;
		const endings = one.doors.map((door, place) => endingOf(door, one.changes[place]));
		if (one.people.length > 1) kept.set(one, endings);
		return endings;
	};
}
