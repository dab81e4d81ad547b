import { z } from 'zod';
import { entry, amount, exactly, text as textThat, whole } from '../document/fields';
import { awayLimit, booking, station, wave } from '../document/schema-enrollment';
import type { Rollout } from '../document/schema';
import type { EntryChange } from '../enrollment/remedies/entry-change';
import type { UnbookedReason } from '../enrollment/plan';
import { type PlanFigures, whatIf } from '../enrollment/what-if';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';
import { unbookedWords } from './plan';

const edit = exactly('put-entry');

/** The changes that can be tried: those that remedies make. */
const changesSchema = z.array(
	z.union([
		entry({ edit, params: entry({ collection: exactly('stations'), at: z.string(), entry: station }) }),
		entry({ edit, params: entry({ collection: exactly('waves'), at: z.string(), entry: wave }) }),
		entry({ edit, params: entry({ collection: exactly('awayLimits'), at: whole(), entry: awayLimit }) }),
		entry({ edit, params: entry({ collection: exactly('bookings'), at: whole(), entry: booking }) })
	])
);

const params = z.strictObject({
	edits: textThat(
		'the JSON of a list of put-entry edits of stations, waves, away-limits or bookings, such as a remedy has',
		(value) => changesIn(value) !== undefined
	).describe('JSON of the changes to try, as the edits of a remedy'),
	seconds: amount(0).default(10).describe('Seconds for both plans together'),
	seed: whole().default(1).describe('Same seed and finished work, same plans')
});

type Params = z.output<typeof params>;

/** What `what-if` answers: the figures of the plan as things stand, and with the changes. */
export interface WhatIf {
	readonly now: PlanFigures;
	readonly then: PlanFigures;
}

export default defineAnswer<Params, WhatIf>({
	name: 'what-if',
	summary: 'The plan now beside the plan with some changes, such as those of a remedy; neither is made.',
	params,
	run: (rollout, { edits, seconds, seed }, work) =>
		Promise.resolve(ok(whatIf(rollout, changesIn(edits) ?? [], { seconds, seed }, work))),
	isLong: true,
	isBad: () => false,
	text
});

function changesIn(text: string): EntryChange[] | undefined {
	try {
		const read = changesSchema.safeParse(JSON.parse(text));
		return read.success ? read.data : undefined;
	} catch {
		return undefined;
	}
}

function text({ now, then }: WhatIf, _: Rollout): string {
	return textTable(
		['', 'Now', 'With the changes'].map((heading) => ({ heading })),
		figureRows([now, then]).map(({ word, values }) => [word, ...values])
	);
}

/** Figures of several plans, line by line; reasons only where somebody is left out for them. */
export function figureRows(plans: readonly PlanFigures[]) {
	const row = (word: string, of: (figures: PlanFigures) => string | number | null) => {
		return { word, values: plans.map((figures) => String(of(figures) ?? 'none')) };
	};
	const reasons = (Object.keys(unbookedWords) as UnbookedReason[]).filter((reason) =>
		plans.some((figures) => (figures.reasons[reason] ?? 0) > 0)
	);
	return [
		row('People booked', ({ booked }) => booked),
		row('Not booked', ({ unbooked }) => unbooked),
		...reasons.map((reason) => row(`Left out: ${unbookedWords[reason]}`, (figures) => figures.reasons[reason] ?? 0)),
		row('No plan books more than', ({ bounds }) => bounds.bookable),
		row('Sessions', ({ sessions }) => sessions),
		row('Minutes walked', ({ walkMinutes }) => Math.round(walkMinutes)),
		row('Last date', ({ lastDate }) => lastDate),
		row('Cost, with the changes', ({ cost }) => cost),
		row('Proven best', ({ optimal }) => (optimal ? 'yes' : 'no'))
	];
}
