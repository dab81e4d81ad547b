import { z } from 'zod';
import { entry } from '../document/fields';
import { valueAt, withValue } from '../document/lists';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import { findStale, wasParam } from './support/find-entry';

/** The parts of a document that are no lists of entries, with what people call them. */
const parts = {
	site: 'Site',
	horizon: 'Horizon',
	'holidays.coveredUntil': 'End of the holiday list',
	'enrollment.gridMinutes': 'Grid of bookings',
	'enrollment.assumptions': 'Assumptions of the forecast',
	'enrollment.costs': 'Cost table of remedies',
	'enrollment.invitation': 'Words of the invitations',
	'privacy.regimes': 'Rule packs',
	'privacy.siteRules': 'Own retention rules',
	'privacy.office': 'Privacy office',
	'privacy.erasureRules': 'Own rules of erasure'
} as const;

export type PartName = keyof typeof parts;

const names = Object.keys(parts) as PartName[];

/** Sets a part of the document that is no list of entries. */
export default defineEdit({
	name: 'set-part',
	summary: `Sets one of the parts that are no lists: ${names.join(', ')}.`,
	params: entry({
		part: z.enum(names, { error: `one of ${names.join(', ')}` }),
		value: z.unknown().describe('As in the document; null takes it away'),
		was: wasParam.optional()
	}),
	apply(document, { part, value, was }) {
		const steps = part.split('.');
		const present = valueAt(document, steps);
		const stale = findStale(was, present ?? null);
		if (stale.length > 0) return refused(stale);
		if ((value ?? null) === null && (present ?? null) === null) return ok(document);
		return ok(withValue(document, steps, value ?? undefined));
	},
	placed: ({ part }) => [{ param: ['value'], at: part.split('.') }],
	describe: ({ part, value }) => `${parts[part]} ${(value ?? null) === null ? 'taken away' : 'changed'}`
});
