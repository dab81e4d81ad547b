import { z } from 'zod';
import type { GroupFilter } from '../access/compare-groups';
import { type ToldGroups, toldGroups } from '../access/told-groups';
import type { Rollout } from '../document/schema';
import { ok } from '../kernel/result';
import { defineAnswer } from './define-answer';
import { groupsText } from './support/groups-text';

interface Params extends GroupFilter {
	readonly with: Rollout;
}

/** `run` takes the earlier rollout; `with` is the later one, whose horizon is looked at. */
export default defineAnswer<Params, ToldGroups>({
	name: 'compare-groups',
	summary: 'As compare, gathered in words: who alike gains and loses which doors, and when; losses first.',
	params: z.strictObject({
		with: z.custom<Rollout>((value) => typeof value === 'object' && value !== null).describe('The later document'),
		person: z.string().optional().describe('Only groups with this person'),
		door: z.string().optional().describe('Only groups with this door'),
		department: z.string().optional().describe('Only groups with somebody of this department'),
		does: z.enum(['lose', 'gain']).optional().describe('Only groups that lose, or that gain')
	}),
	run: (rollout, { with: later, ...filter }, work) => Promise.resolve(ok(toldGroups(rollout, later, work, filter))),
	isBad: () => false,
	text: groupsText
});
