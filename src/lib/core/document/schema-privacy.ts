import { z } from 'zod';
import { date, entry, id, listOf, maybe, oneOf, orElse, whole, word, words, yesOrNo } from './fields';

/** Biometric privacy: regimes, notices, consents, where templates lie, holds. Never any biometric data. */

export const siteRules = entry({
	daysAfterLeaving: maybe(whole()),
	daysUnused: maybe(whole())
});

export const notice = entry({
	id,
	version: maybe(words),
	language: maybe(words),
	publishedOn: maybe(date),
	replaces: maybe(id),
	needsFreshConsent: orElse(yesOrNo, () => false)
});

export const consent = entry({
	person: id,
	notice: id,
	decision: oneOf(['given', 'declined', 'withdrawn']),
	on: date,
	method: maybe(words)
});

export const erasure = entry({
	from: word.describe('The place, as in storedOn'),
	on: date,
	by: maybe(words),
	evidence: maybe(words)
});

export const template = entry({
	person: id,
	enrolledOn: date,
	lastUsedOn: maybe(date),
	unneededSince: maybe(date),
	storedOn: z.array(word, { error: 'a list of at least one place' }).min(1, { error: 'a list of at least one place' }),
	erasures: listOf(erasure)
});

export const hold = entry({ person: id, from: maybe(date), until: maybe(date), reason: maybe(words) });

export const privacy = entry({
	regimes: listOf(id).describe('Rule packs that apply at this site'),
	siteRules: orElse(siteRules, () => ({ daysAfterLeaving: null, daysUnused: null })),
	notices: listOf(notice),
	consents: listOf(consent),
	templates: listOf(template),
	holds: listOf(hold)
});

export type Notice = z.output<typeof notice>;
export type Consent = z.output<typeof consent>;
export type Template = z.output<typeof template>;
export type Erasure = z.output<typeof erasure>;
export type Hold = z.output<typeof hold>;
export type Privacy = z.output<typeof privacy>;
