/**
 * When templates must be erased, and what is wrong with consent, a second time: slowly, in the obvious way, from the
 * sentences of the reckoning alone. It takes a document as written, with keys left out, and shares nothing with the
 * product: not the schema, not the rule packs, not the arithmetic of dates.
 */

type Maybe<T> = T | null | undefined;

interface PlainTemplate {
	person: string;
	enrolledOn: string;
	lastUsedOn?: Maybe<string>;
	unneededSince?: Maybe<string>;
	storedOn: string[];
	erasures?: Maybe<{ from: string; on: string }[]>;
}

interface PlainConsent {
	person: string;
	notice: string;
	decision: 'given' | 'declined' | 'withdrawn';
	on: string;
}

interface PlainNotice {
	id: string;
	publishedOn?: Maybe<string>;
	replaces?: Maybe<string>;
	needsFreshConsent?: Maybe<boolean>;
}

export interface PlainPrivacyDocument {
	people?: Maybe<{ id: string; leavesOn?: Maybe<string> }[]>;
	privacy?: Maybe<{
		regimes?: Maybe<string[]>;
		siteRules?: Maybe<{ daysAfterLeaving?: Maybe<number>; daysUnused?: Maybe<number> }>;
		notices?: Maybe<PlainNotice[]>;
		consents?: Maybe<PlainConsent[]>;
		templates?: Maybe<PlainTemplate[]>;
		holds?: Maybe<{ person: string; from?: Maybe<string>; until?: Maybe<string> }[]>;
	}>;
}

type TriggerName = 'left' | 'withdrew' | 'last-use' | 'unneeded';

interface PlainCandidate {
	rule: string;
	trigger: TriggerName;
	triggerDate: string;
	eraseBy: string;
}

export interface OracleTemplate {
	person: string;
	enrolledOn: string;
	state: string;
	eraseBy: string | null;
	rule: string | null;
	trigger: string | null;
	triggerDate: string | null;
	left: string[];
	candidates: PlainCandidate[];
}

export interface OracleAnswer {
	templates: OracleTemplate[];
	/** `code person`, or the code alone for a problem of the site. */
	problems: string[];
}

/** The table of rules as it is printed, row by row: pack, rule, triggers, then how the latest date comes from the trigger. */
const table: [pack: string, rule: string, triggers: TriggerName[], years: number, months: number, days: number][] = [
	['us-il', 'purpose-ended', ['left', 'withdrew'], 0, 0, 0],
	['us-il', 'three-years', ['last-use'], 3, 0, 0],
	['us-tx', 'one-year', ['left', 'withdrew'], 1, 0, 0],
	['us-co', 'purpose-ended', ['left', 'withdrew'], 0, 0, 0],
	['us-co', 'two-years', ['last-use'], 0, 24, 0],
	['us-co', 'forty-five-days', ['unneeded'], 0, 0, 45],
	['eu', 'purpose-ended', ['left', 'withdrew', 'unneeded'], 0, 0, 0],
	['uk', 'purpose-ended', ['left', 'withdrew', 'unneeded'], 0, 0, 0],
	['fr', 'authorization-ended', ['left', 'withdrew'], 0, 0, 0],
	['ca-qc', 'purpose-ended', ['left', 'withdrew', 'unneeded'], 0, 0, 0]
];

/** The rows by the place that counts on a tie; the European Union and the United Kingdom share one row of the table. */
const rowOfRule = [
	'us-il/purpose-ended',
	'us-il/three-years',
	'us-tx/one-year',
	'us-co/purpose-ended',
	'us-co/two-years',
	'us-co/forty-five-days',
	'eu/purpose-ended uk/purpose-ended',
	'fr/authorization-ended',
	'ca-qc/purpose-ended',
	'site/days-after-leaving',
	'site/days-unused'
];

/** The whole answer on a day. */
export function retentionByHand(document: PlainPrivacyDocument, on: string): OracleAnswer {
	const privacy = document.privacy ?? {};
	const people = document.people ?? [];
	const templates = privacy.templates ?? [];
	const reckoned = templates.map((template) => oneTemplate(document, template, on));
	const problems: string[] = [];
	for (const person of people) {
		const open = templates.filter((one) => one.person === person.id && placesLeft(one, on).length > 0);
		if (open.length === 0) continue;
		const all = consentsOf(document, person.id);
		const known = all.filter((entry) => entry.on <= on);
		const given = known.filter((entry) => entry.decision === 'given');
		const [first, last, latest] = [given[0], given[given.length - 1], known[known.length - 1]];
		const gaveUp = latest !== undefined && (latest.decision === 'withdrawn' || latest.decision === 'declined');
		const tell = (code: string) => problems.push(`${code} ${person.id}`);

		if (first === undefined) tell('consent-missing');
		if (first !== undefined && open.some((template) => first.on > template.enrolledOn))
			tell('consent-after-enrollment');
		if (last !== undefined && !gaveUp && isOutdated(privacy.notices ?? [], last.notice, on)) {
			tell('consent-notice-outdated');
		}
		if (gaveUp) tell('consent-withdrawn');
		if (person.leavesOn && person.leavesOn < on) tell('leaver-template-left');
		const early = templates
			.filter((template) => template.person === person.id)
			.some((template) => (template.erasures ?? []).some((erasure) => erasure.on < template.enrolledOn));
		if (early) tell('erased-before-enrolled');
		if (all.some((entry) => entry.on > on)) tell('consent-in-future');
	}
	const daysAfterLeaving = privacy.siteRules?.daysAfterLeaving;
	const hasPeriod = daysAfterLeaving !== null && daysAfterLeaving !== undefined;
	if ((privacy.regimes ?? []).includes('us-wa') && !hasPeriod) problems.push('retention-period-missing');
	return { templates: reckoned, problems };
}

function oneTemplate(document: PlainPrivacyDocument, template: PlainTemplate, on: string): OracleTemplate {
	const privacy = document.privacy ?? {};
	const known = consentsOf(document, template.person).filter((entry) => entry.on <= on);
	const latest = known[known.length - 1];
	const dateOfTrigger: Record<TriggerName, Maybe<string>> = {
		left: (document.people ?? []).find((person) => person.id === template.person)?.leavesOn,
		withdrew: latest && latest.decision !== 'given' ? latest.on : null,
		'last-use': template.lastUsedOn ?? template.enrolledOn,
		unneeded: template.unneededSince
	};
	const candidates: PlainCandidate[] = [];
	const consider = (rule: string, trigger: TriggerName, latestOf: (date: string) => string) => {
		const triggerDate = dateOfTrigger[trigger];
		if (triggerDate) candidates.push({ rule, trigger, triggerDate, eraseBy: latestOf(triggerDate) });
	};
	for (const [pack, rule, names, years, months, days] of table) {
		if (!(privacy.regimes ?? []).includes(pack)) continue;
		for (const trigger of names) {
			consider(`${pack}/${rule}`, trigger, (date) => daysLater(monthsLater(date, 12 * years + months), days));
		}
	}
	const { daysAfterLeaving, daysUnused } = privacy.siteRules ?? {};
	if (typeof daysAfterLeaving === 'number') {
		consider('site/days-after-leaving', 'left', (date) => daysLater(date, daysAfterLeaving));
	}
	if (typeof daysUnused === 'number') consider('site/days-unused', 'last-use', (date) => daysLater(date, daysUnused));

	const governing = candidates.find((one) => candidates.every((other) => other === one || goesFirst(one, other)));
	const left = placesLeft(template, on);
	const isHeld = (privacy.holds ?? []).some(
		(hold) => hold.person === template.person && (hold.from ?? on) <= on && on <= (hold.until ?? on)
	);
	let state = 'kept';
	if (governing && on <= governing.eraseBy && governing.eraseBy <= daysLater(on, 30)) state = 'due';
	if (governing && governing.eraseBy < on) state = 'overdue';
	if (isHeld) state = 'held';
	if (left.length === 0) state = 'erased';
	return {
		person: template.person,
		enrolledOn: template.enrolledOn,
		state,
		eraseBy: governing?.eraseBy ?? null,
		rule: governing?.rule ?? null,
		trigger: governing?.trigger ?? null,
		triggerDate: governing?.triggerDate ?? null,
		left,
		candidates
	};
}

/** The earlier date; on a tie the row of the table, then the trigger, then eu before uk. */
function goesFirst(one: PlainCandidate, other: PlainCandidate): boolean {
	if (one.eraseBy !== other.eraseBy) return one.eraseBy < other.eraseBy;
	const row = (candidate: PlainCandidate) => rowOfRule.findIndex((text) => text.split(' ').includes(candidate.rule));
	if (row(one) !== row(other)) return row(one) < row(other);
	const order = ['left', 'withdrew', 'last-use', 'unneeded'];
	if (one.trigger !== other.trigger) return order.indexOf(one.trigger) < order.indexOf(other.trigger);
	return one.rule.startsWith('eu/');
}

/** Entries of a person in date order, then list order: a sort by insertion, which keeps equals as they stand. */
function consentsOf(document: PlainPrivacyDocument, person: string): PlainConsent[] {
	const inOrder: PlainConsent[] = [];
	for (const entry of document.privacy?.consents ?? []) {
		if (entry.person !== person) continue;
		let place = inOrder.length;
		while (place > 0 && (inOrder[place - 1]?.on ?? '') > entry.on) place--;
		inOrder.splice(place, 0, entry);
	}
	return inOrder;
}

function placesLeft(template: PlainTemplate, on: string): string[] {
	const left: string[] = [];
	for (const place of template.storedOn) {
		const isEmpty = (template.erasures ?? []).some(
			(erasure) => erasure.from === place && erasure.on <= on && !(erasure.on < template.enrolledOn)
		);
		if (!isEmpty && !left.includes(place)) left.push(place);
	}
	return left;
}

/** Walks back from every notice that needs fresh consent and is published: does its chain of `replaces` meet this one? */
function isOutdated(notices: PlainNotice[], noticeId: string, on: string): boolean {
	return notices.some((notice) => {
		if (notice.id === noticeId || !notice.needsFreshConsent || !notice.publishedOn || notice.publishedOn > on)
			return false;
		let before = notice.replaces;
		for (let steps = 0; before && steps <= notices.length; steps++) {
			if (before === noticeId) return true;
			before = notices.find((one) => one.id === before)?.replaces;
		}
		return false;
	});
}

/** Month by name, then the day, or the last one that the month has. */
function monthsLater(date: string, months: number): string {
	const [year, month, day] = date.split('-').map(Number) as [number, number, number];
	let [y, m] = [year, month];
	for (let step = 0; step < months; step++) {
		m++;
		if (m > 12) [y, m] = [y + 1, 1];
	}
	for (let d = day; ; d--) {
		const text = `${String(y).padStart(4, '0')}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`;
		if (existsOnCalendar(text)) return text;
	}
}

function existsOnCalendar(date: string): boolean {
	const time = Date.parse(`${date}T00:00:00Z`);
	return !Number.isNaN(time) && new Date(time).toISOString().slice(0, 10) === date;
}

function daysLater(date: string, days: number): string {
	return new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}
