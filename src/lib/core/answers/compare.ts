import { z } from 'zod';
import { type AccessChange, compareAccess } from '../access/compare';
import { counted, nameOf, personName } from '../document/names';
import type { Rollout } from '../document/schema';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';

interface Params {
	readonly with: Rollout;
}

export interface CompareAnswer {
	readonly changes: readonly AccessChange[];
}

const columns = [
	{ heading: 'person' },
	{ heading: 'door' },
	{ heading: 'minutes gained', isFigure: true },
	{ heading: 'minutes lost', isFigure: true },
	{ heading: 'first' }
];

/** `run` takes the earlier rollout; `with` is the later one, whose horizon is looked at. */
export default defineAnswer<Params, CompareAnswer>({
	name: 'compare',
	summary: 'Who gains and who loses which door between two documents, over the horizon of the second.',
	params: z.strictObject({
		with: z.custom<Rollout>((value) => typeof value === 'object' && value !== null).describe('The later document')
	}),
	run: (rollout, params) => Promise.resolve(ok({ changes: compareAccess(rollout, params.with) })),
	isBad: () => false,
	text({ changes }, rollout) {
		if (changes.length === 0) return 'Nobody gains and nobody loses a minute at any door.';
		const people = new Set(changes.map(({ person }) => person)).size;
		const rows = changes.map(({ person, door, gained, lost, examples }) => [
			personName(rollout, person),
			nameOf(rollout.doors, door),
			String(gained),
			String(lost),
			examples[0] ? `${examples[0].change} ${examples[0].from} to ${examples[0].to}` : ''
		]);
		return [`${counted(people, 'person', 'people')} affected.`, textTable(columns, rows)].join('\n\n');
	}
});
