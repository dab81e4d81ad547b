import type { LocalDate } from '../calendar/local-date';
import type { Person, Template } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import type { ConsentState } from './consent-state';
import { type RetentionRule, type RulePack, type Trigger, ruleName, sourceOf, triggers } from './define-pack';
import { latestDate } from './period';

/** One date by which a template must be erased, and why. */
export interface Candidate {
	/** `pack/rule`. */
	readonly rule: string;
	readonly trigger: Trigger;
	readonly triggerDate: LocalDate;
	readonly eraseBy: LocalDate;
	/** Statute and section, or the site's own rule. */
	readonly source: string;
}

/** The date of each trigger of a template; null for one that has not happened and is not planned. */
export type TriggerDates = Readonly<Record<Trigger, LocalDate | null>>;

/** When each trigger of a template starts to count, on the knowledge of a consent state. */
export function triggerDates(
	person: Pick<Person, 'leavesOn'>,
	template: Template,
	consent: ConsentState
): TriggerDates {
	const isGivenUp = consent.decision === 'withdrawn' || consent.decision === 'declined';
	return {
		left: person.leavesOn,
		withdrew: isGivenUp && consent.latest !== null ? consent.latest.on : null,
		'last-use': template.lastUsedOn ?? template.enrolledOn,
		unneeded: template.unneededSince
	};
}

/**
 * Every candidate of a template, the governing one first: the earliest date to erase by; on a tie the rule that stands
 * first in the table, then the trigger that does, then the pack by its id. Empty where no rule has its trigger date.
 * @param packs in the order of `packsOf`
 */
export function candidatesOf(packs: readonly RulePack[], dates: TriggerDates): Candidate[] {
	return packs
		.flatMap((pack) => pack.rules.flatMap((rule, place) => ofRule(pack, rule, place, dates)))
		.sort(
			(a, b) =>
				byCodeUnits(a.candidate.eraseBy, b.candidate.eraseBy) ||
				a.row - b.row ||
				a.place - b.place ||
				triggers.indexOf(a.candidate.trigger) - triggers.indexOf(b.candidate.trigger) ||
				byCodeUnits(a.candidate.rule, b.candidate.rule)
		)
		.map(({ candidate }) => candidate);
}

function ofRule(pack: RulePack, rule: RetentionRule, place: number, dates: TriggerDates) {
	return rule.triggers.flatMap((trigger) => {
		const triggerDate = dates[trigger];
		if (triggerDate === null) return [];
		const candidate: Candidate = {
			rule: ruleName(pack, rule),
			trigger,
			triggerDate,
			eraseBy: latestDate(triggerDate, rule.period),
			source: sourceOf(rule)
		};
		return [{ row: pack.row, place, candidate }];
	});
}
