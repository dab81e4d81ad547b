import type { LocalDate } from '../calendar/local-date';
import type { Consent, Rollout } from '../document/schema';
import { paredTo } from './pared';
import { type TemplateRetention, retentionOn } from './retention';

/** What is supposed of a person; nothing is written into the document. */
export interface Supposed {
	readonly leavesOn?: LocalDate;
	/** Consent is withdrawn on this day. */
	readonly withdrawsOn?: LocalDate;
	readonly lastUsedOn?: LocalDate;
	/** The site decides on this day that the template is not needed any more. */
	readonly unneededSince?: LocalDate;
}

/** A template now, and as it would be. */
export interface Projected {
	readonly now: TemplateRetention;
	readonly then: TemplateRetention;
}

/**
 * When the templates of a person that are not erased on a day would have to go if something were so. A withdrawal that lies
 * ahead is taken as known, with every decision up to it; the state of a template is that of the later of the two days.
 */
export function projectRetention(rollout: Rollout, person: string, on: LocalDate, supposed: Supposed): Projected[] {
	const pared = paredTo(rollout, person);
	const { leavesOn, withdrawsOn, lastUsedOn, unneededSince } = supposed;
	const { privacy } = pared;
	const then: Rollout = {
		...pared,
		people: leavesOn === undefined ? pared.people : pared.people.map((one) => ({ ...one, leavesOn })),
		privacy: {
			...privacy,
			consents:
				withdrawsOn === undefined
					? privacy.consents
					: [...privacy.consents, { ...nothingSaid, person, decision: 'withdrawn' as const, on: withdrawsOn }],
			templates: privacy.templates.map((one) => ({
				...one,
				lastUsedOn: lastUsedOn ?? one.lastUsedOn,
				unneededSince: unneededSince ?? one.unneededSince
			}))
		}
	};
	const day = withdrawsOn !== undefined && withdrawsOn > on ? withdrawsOn : on;
	const projected = retentionOn(then, day).templates;
	return retentionOn(pared, on).templates.flatMap((now, place) => {
		const later = projected[place];
		return later === undefined || now.left.length === 0 ? [] : [{ now, then: later }];
	});
}

const nothingSaid: Omit<Consent, 'person' | 'decision' | 'on'> = {
	notice: '',
	method: null,
	at: null,
	signature: null,
	drawing: null,
	reference: null,
	witness: null,
	alternative: null
};
