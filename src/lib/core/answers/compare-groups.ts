import { z } from 'zod';
import { type ToldGroups, toldGroups } from '../access/told-groups';
import type { Rollout } from '../document/schema';
import { ok } from '../kernel/result';
import { defineAnswer } from './define-answer';
import { groupsText } from './support/groups-text';

interface Params {
	readonly with: Rollout;
}

/** `run` takes the earlier rollout; `with` is the later one, whose horizon is looked at. */
export default defineAnswer<Params, ToldGroups>({
	name: 'compare-groups',
	summary: 'As compare, gathered in words: who alike gains and loses which doors, and when; losses first.',
	params: z.strictObject({
		with: z.custom<Rollout>((value) => typeof value === 'object' && value !== null).describe('The later document')
	}),
	run: (rollout, params, work) => Promise.resolve(ok(toldGroups(rollout, params.with, work))),
	isBad: () => false,
	text: groupsText
});
