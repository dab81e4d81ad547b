import type { LocalDate } from '../calendar/local-date';
import type { Person, Template } from '../document/schema';
import type { ConsentState } from './consent-state';
import type { RulePack } from './define-pack';
import type { FindFresherNotice } from './notices';

/** What can be wrong with consent, in the order in which a person's problems are told. */
export type ConsentProblemCode =
	| 'consent-missing'
	| 'consent-after-enrollment'
	| 'consent-notice-outdated'
	| 'consent-withdrawn'
	| 'leaver-template-left'
	| 'erased-before-enrolled'
	| 'consent-in-future'
	| 'retention-period-missing';

/** A problem of one person, or of the site where `person` is null; the dates that make it one, in order. */
export interface ConsentProblem {
	readonly code: ConsentProblemCode;
	readonly person: string | null;
	readonly message: string;
	readonly dates: readonly LocalDate[];
}

/** What the problems of one person are found from. */
export interface PersonOnFile {
	readonly person: Person;
	/** As a sentence names the person. */
	readonly name: string;
	readonly consent: ConsentState;
	/** Every template of the person. */
	readonly templates: readonly Template[];
	/** Those of them with a place not yet erased. */
	readonly open: readonly Template[];
}

type Problem = Omit<ConsentProblem, 'person'>;
type FindProblem = (file: PersonOnFile, on: LocalDate, fresher: FindFresherNotice) => Problem | null;

/** The problems of one person on a day: none for a person whose templates are all erased. */
export function problemsOf(file: PersonOnFile, on: LocalDate, fresher: FindFresherNotice): ConsentProblem[] {
	if (file.open.length === 0) return [];
	return finders.flatMap((find) => {
		const problem = find(file, on, fresher);
		return problem === null
			? []
			: [{ code: problem.code, person: file.person.id, message: problem.message, dates: problem.dates }];
	});
}

/** The problem of a site whose law has no period, while the site gives none itself; once, however many packs ask for it. */
export function sitePeriodProblem(packs: readonly RulePack[], daysAfterLeaving: number | null): ConsentProblem[] {
	const asking = packs.filter((pack) => pack.sitePeriodRequired !== null);
	if (asking.length === 0 || daysAfterLeaving !== null) return [];
	const reasons = asking.map((pack) => `${pack.title}: ${pack.sitePeriodRequired ?? ''}`).join(' ');
	return [
		{
			code: 'retention-period-missing',
			person: null,
			message: `The site gives no days after leaving, and its law has no number either. ${reasons}`,
			dates: []
		}
	];
}

const finders: readonly FindProblem[] = [
	missing,
	afterEnrollment,
	noticeOutdated,
	withdrawn,
	leaverTemplateLeft,
	erasedBeforeEnrolled,
	inFuture
];

function missing({ name, consent, open }: PersonOnFile): Problem | null {
	if (consent.firstGiven !== null) return null;
	return {
		code: 'consent-missing',
		message: `${name} has a template and no consent given.`,
		dates: inOrder(open.map((template) => template.enrolledOn))
	};
}

function afterEnrollment({ name, consent, open }: PersonOnFile): Problem | null {
	const given = consent.firstGiven;
	if (given === null) return null;
	const early = open.filter((template) => given.on > template.enrolledOn).map((template) => template.enrolledOn);
	if (early.length === 0) return null;
	return {
		code: 'consent-after-enrollment',
		message: `${name} was enrolled on ${inOrder(early).join(', ')}, before consent was first given on ${given.on}.`,
		dates: inOrder([...early, given.on])
	};
}

function noticeOutdated({ name, consent }: PersonOnFile, _on: LocalDate, fresher: FindFresherNotice): Problem | null {
	const given = consent.latestGiven;
	if (given === null || hasGivenUp(consent)) return null;
	const notice = fresher(given.notice);
	if (notice === null) return null;
	return {
		code: 'consent-notice-outdated',
		message:
			`${name} agreed to notice ${given.notice} on ${given.on}; notice ${notice.id} has taken its place and ` +
			'needs fresh consent.',
		dates: inOrder([given.on, ...(notice.publishedOn === null ? [] : [notice.publishedOn])])
	};
}

function withdrawn({ name, consent, open }: PersonOnFile, on: LocalDate): Problem | null {
	if (consent.latest === null || !hasGivenUp(consent)) return null;
	const did = consent.decision === 'declined' ? 'declined' : 'withdrew consent';
	const places = open.length === 1 ? 'the template is' : 'templates are';
	return {
		code: 'consent-withdrawn',
		message: `${name} ${did} on ${consent.latest.on}, and ${places} not erased everywhere by ${on}.`,
		dates: [consent.latest.on]
	};
}

function leaverTemplateLeft({ person, name }: PersonOnFile, on: LocalDate): Problem | null {
	if (person.leavesOn === null || person.leavesOn >= on) return null;
	return {
		code: 'leaver-template-left',
		message: `${name} left on ${person.leavesOn}, and a template is still stored.`,
		dates: [person.leavesOn]
	};
}

function erasedBeforeEnrolled({ name, templates }: PersonOnFile): Problem | null {
	const early = templates.flatMap((template) =>
		template.erasures.filter((erasure) => erasure.on < template.enrolledOn).map((erasure) => erasure.on)
	);
	if (early.length === 0) return null;
	return {
		code: 'erased-before-enrolled',
		message: `An erasure for ${name} is dated ${inOrder(early).join(', ')}, before the enrollment: it empties nothing.`,
		dates: inOrder(early)
	};
}

function inFuture({ name, consent }: PersonOnFile, on: LocalDate): Problem | null {
	if (consent.inFuture.length === 0) return null;
	const dates = inOrder(consent.inFuture.map((entry) => entry.on));
	return {
		code: 'consent-in-future',
		message: `A consent entry of ${name} is dated ${dates.join(', ')}, after ${on}: it is not counted yet.`,
		dates
	};
}

function hasGivenUp(consent: ConsentState): boolean {
	return consent.decision === 'withdrawn' || consent.decision === 'declined';
}

function inOrder(dates: readonly LocalDate[]): LocalDate[] {
	return [...new Set(dates)].sort();
}
