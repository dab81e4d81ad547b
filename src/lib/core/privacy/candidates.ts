import type { LocalDate } from '../calendar/local-date';
import type { Person, Template } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
import type { ConsentState } from './consent-state';
import { type Period, type RulePack, type Trigger, ruleName, sourceOf, triggers } from './define-pack';
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

/** One trigger of one rule that applies at a site, ready to be reckoned for many templates. */
export interface RuleTrigger {
	readonly rule: string;
	readonly trigger: Trigger;
	readonly period: Period;
	readonly source: string;
	/** Latest dates by trigger date: thousands of templates share the days of a few years. */
	readonly known: Map<LocalDate, LocalDate>;
}

/**
 * The triggers of every rule of these packs, in the order that decides ties: the row of the table, the place of the rule
 * in its pack, then the trigger, then the pack by its id (two packs share a row).
 */
export function ruleTriggersOf(packs: readonly RulePack[]): RuleTrigger[] {
	return packs
		.flatMap((pack) =>
			pack.rules.flatMap((rule, place) => rule.triggers.map((trigger) => ({ pack, rule, place, trigger })))
		)
		.sort(
			(a, b) =>
				a.pack.row - b.pack.row ||
				a.place - b.place ||
				triggers.indexOf(a.trigger) - triggers.indexOf(b.trigger) ||
				byCodeUnits(a.pack.id, b.pack.id)
		)
		.map(({ pack, rule, trigger }) => ({
			rule: ruleName(pack, rule),
			trigger,
			period: rule.period,
			source: sourceOf(rule),
			known: new Map()
		}));
}

/**
 * Every candidate of a template, the governing one first: the earliest date to erase by, on a tie as `ruleTriggersOf`
 * has them. Empty where no rule has its trigger date.
 */
export function candidatesOf(ruleTriggers: readonly RuleTrigger[], dates: TriggerDates): Candidate[] {
	const candidates: Candidate[] = [];
	for (const { rule, trigger, period, source, known } of ruleTriggers) {
		const triggerDate = dates[trigger];
		if (triggerDate === null) continue;
		const eraseBy = remembered(known, triggerDate, () => latestDate(triggerDate, period));
		candidates.push({ rule, trigger, triggerDate, eraseBy, source });
	}
	// Sorting keeps the order of equals.
	return candidates.sort((a, b) => byCodeUnits(a.eraseBy, b.eraseBy));
}
