import type { LocalDate } from '../calendar/local-date';
import { personName } from '../document/names';
import type { Rollout, Template } from '../document/schema';
import { groupBy } from '../kernel/group-by';
import { type Candidate, type RuleTrigger, candidatesOf, ruleTriggersOf, triggerDates } from './candidates';
import { type ConsentProblem, type PersonOnFile, problemsOf, sitePeriodProblem } from './consent-problems';
import { consentStates, noConsent } from './consent-state';
import type { Trigger } from './define-pack';
import { fresherNotices } from './notices';
import { packsOf } from './packs-of';
import { type TemplateState, covers, placesLeft, templateState } from './template-state';

/**
 * When each template must be erased, and what is wrong with consent, on one day. The triggers of a template give
 * candidates under every rule that applies at the site; the earliest governs. Linear in people, entries and templates.
 */

/** What is known of one template on a day. Without a candidate the fields that it would fill are null. */
export interface TemplateRetention {
	readonly person: string;
	readonly enrolledOn: LocalDate;
	readonly state: TemplateState;
	readonly eraseBy: LocalDate | null;
	readonly rule: string | null;
	readonly trigger: Trigger | null;
	readonly triggerDate: LocalDate | null;
	/** The places not yet erased, as listed in `storedOn`. */
	readonly left: readonly string[];
	/** The governing one first. */
	readonly candidates: readonly Candidate[];
}

/** Templates as listed in the rollout; problems by person as listed in the rollout, those of the site last. */
export interface Retention {
	readonly templates: readonly TemplateRetention[];
	readonly consentProblems: readonly ConsentProblem[];
}

/**
 * The retention ledger of a rollout as it stands on a day. Consent entries dated later are ignored in all of it, and told
 * as a problem; `leavesOn`, `enrolledOn` and `unneededSince` count as they stand, past or planned.
 * @source the rules with their statutes in `packs/`; nothing here is legal advice, and counsel confirms each date
 */
export function retentionOn(rollout: Rollout, on: LocalDate): Retention {
	const { consents, templates, holds, notices, siteRules } = rollout.privacy;
	const packs = packsOf(rollout.privacy);
	const ruleTriggers = ruleTriggersOf(packs);
	const consentByPerson = consentStates(consents, on);
	const templatesByPerson = groupBy(templates, (template) => template.person);
	const heldPeople = new Set(holds.filter((hold) => covers(hold, on)).map((hold) => hold.person));
	const files = rollout.people.map((person): PersonOnFile => {
		const ofPerson = templatesByPerson.get(person.id) ?? [];
		return {
			person,
			name: personName(rollout, person.id),
			consent: consentByPerson.get(person.id) ?? noConsent,
			templates: ofPerson,
			open: ofPerson.filter((template) => placesLeft(template, on).length > 0)
		};
	});
	const fileByPerson = new Map(files.map((file) => [file.person.id, file]));
	const fresher = fresherNotices(notices, on);
	return {
		templates: templates.map((template) => {
			const file = fileByPerson.get(template.person);
			if (file === undefined) throw new RangeError(`${JSON.stringify(template.person)} is no person of the rollout`);
			return reckon(template, file, ruleTriggers, heldPeople.has(template.person), on);
		}),
		consentProblems: [
			...files.flatMap((file) => problemsOf(file, on, fresher)),
			...sitePeriodProblem(packs, siteRules.daysAfterLeaving)
		]
	};
}

/** Reckons one template of a person on a day. */
function reckon(
	template: Template,
	{ person, consent }: PersonOnFile,
	ruleTriggers: readonly RuleTrigger[],
	isHeld: boolean,
	on: LocalDate
): TemplateRetention {
	const candidates = candidatesOf(ruleTriggers, triggerDates(person, template, consent));
	const governing = candidates[0];
	const eraseBy = governing?.eraseBy ?? null;
	const left = placesLeft(template, on);
	return {
		person: template.person,
		enrolledOn: template.enrolledOn,
		state: templateState(left, isHeld, eraseBy, on),
		eraseBy,
		rule: governing?.rule ?? null,
		trigger: governing?.trigger ?? null,
		triggerDate: governing?.triggerDate ?? null,
		left,
		candidates
	};
}
