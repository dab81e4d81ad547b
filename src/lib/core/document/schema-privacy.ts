import { z } from 'zod';
import { date, entry, id, listOf, maybe, oneOf, orElse, text, whole, word, words, yesOrNo } from './fields';

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
	needsFreshConsent: orElse(yesOrNo, () => false),
	purpose: maybe(words).describe('What the template is used for, as the notice says it'),
	term: maybe(words).describe('How long it is kept, as the notice says it'),
	states: listOf(word).describe('What its text was found to say, of the list of each rule pack, like us-il/term')
});

export const consent = entry({
	person: id,
	notice: id,
	decision: oneOf(['given', 'declined', 'withdrawn']),
	on: date,
	method: maybe(words),
	at: maybe(text('a time of day, like 09:30', (value) => /^([01]\d|2[0-3]):[0-5]\d$/.test(value))),
	signature: maybe(words).describe('The name as the person typed it to sign'),
	drawing: maybe(
		text('a drawn signature: a path of at most 8000 characters of M, L and whole numbers', (value) =>
			/^(?=.{4,8000}$)(M\d+ \d+(L\d+ \d+)*)+$/.test(value)
		)
	).describe('The signature as it was drawn, a path within 600 by 200'),
	reference: maybe(words).describe('Number of the paper that was signed'),
	witness: maybe(words),
	alternative: maybe(words).describe('The credential that the person gets instead')
});

export const erasure = entry({
	from: word.describe('The place, as in storedOn'),
	on: date,
	by: maybe(words),
	evidence: maybe(words),
	secondBy: maybe(words).describe('Who confirmed it as the second pair of eyes'),
	secondOn: maybe(date)
});

/** What kind of place holds templates. */
export const placeKinds = ['controller', 'reader', 'station', 'backup', 'other'] as const;

export const templatePlace = entry({
	id: id.describe('As templates name it in storedOn'),
	name: maybe(words),
	kind: orElse(oneOf(placeKinds), () => 'other' as const),
	copies: listOf(word).describe('Places whose templates are also here'),
	keepsDays: maybe(whole(0, 36_500)).describe(
		'A backup: days after which what was erased at its sources is gone here too'
	),
	expiresOn: maybe(date).describe('A single backup: the day on which it is destroyed'),
	offlineSince: maybe(date).describe('It cannot be reached since this day')
});

/** Work done at a place that the second pair of eyes has not seen yet. */
export const erasureReport = entry({ from: word, on: date, by: words, evidence: words });

export const erasureOrder = entry({
	id,
	person: id,
	enrolledOn: date.describe('Which template of the person'),
	openedOn: date,
	openedBy: maybe(words),
	reason: maybe(words),
	reports: listOf(erasureReport).describe('Places reported as erased that a second person has still to confirm')
});

export const erasureRules = entry({
	secondPerson: orElse(yesOrNo, () => false).describe('An erasure counts once a second person has confirmed it')
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

/** What people can ask for about their data. */
export const requestKinds = ['access', 'erasure', 'withdrawal', 'objection'] as const;

export const request = entry({
	id,
	person: id,
	kind: oneOf(requestKinds),
	receivedOn: date,
	channel: maybe(words).describe('How it came: by letter, at the desk'),
	identityCheckedOn: maybe(date),
	identityCheckedHow: maybe(words),
	extendedOn: maybe(date).describe('When the person was told that the answer takes longer'),
	extensionReason: maybe(words),
	answeredOn: maybe(date),
	answer: maybe(words).describe('What was answered and done')
});

export const office = entry({
	controller: maybe(words).describe('Who is responsible for the data, as papers name it'),
	address: maybe(words),
	contact: maybe(words).describe('Whom people ask about their data'),
	officer: maybe(words).describe('Data protection officer, where there is one'),
	purpose: maybe(words),
	alternative: maybe(words).describe('The credential for whoever declines'),
	recipients: maybe(words).describe('Who else gets the data; nobody where left out'),
	safeguards: maybe(words).describe('How templates and records are kept safe'),
	publishedAt: maybe(words).describe('Where the retention policy can be read'),
	answerWithinDays: maybe(whole(1, 366)).describe(
		'Days in which requests of persons are answered, as the site sets it'
	),
	removePeopleAfterDays: maybe(whole(0, 3660)).describe('Days after go-live on which people are removed from here')
});

export const privacy = entry({
	regimes: listOf(id).describe('Rule packs that apply at this site'),
	siteRules: orElse(siteRules, () => ({ daysAfterLeaving: null, daysUnused: null })),
	notices: listOf(notice),
	consents: listOf(consent),
	templates: listOf(template),
	holds: listOf(hold),
	places: listOf(templatePlace).describe('More about places that hold templates: backups, readers, what is offline'),
	erasureOrders: listOf(erasureOrder).describe('Work orders: a template to be erased at every place'),
	erasureRules: orElse(erasureRules, () => ({ secondPerson: false })),
	requests: listOf(request).describe('What persons asked for about their data, and the answers'),
	office: maybe(office).describe('Who answers for the data, for papers and requests')
});

export type Notice = z.output<typeof notice>;
export type Consent = z.output<typeof consent>;
export type Template = z.output<typeof template>;
export type Erasure = z.output<typeof erasure>;
export type Request = z.output<typeof request>;
export type Office = z.output<typeof office>;
export type Hold = z.output<typeof hold>;
export type Privacy = z.output<typeof privacy>;
export type TemplatePlace = z.output<typeof templatePlace>;
export type ErasureOrder = z.output<typeof erasureOrder>;
