import type { LocalDate } from '../calendar/local-date';

/** What starts a period of retention running. */
export type Trigger = 'left' | 'withdrew' | 'last-use' | 'unneeded';

/** The triggers in the order in which they go first when candidates tie. */
export const triggers: readonly Trigger[] = ['left', 'withdrew', 'last-use', 'unneeded'];

/** How long after its trigger date a template may be kept at the most; `none`: not beyond the trigger date itself. */
export type Period = { readonly unit: 'none' } | { readonly unit: 'days' | 'months'; readonly count: number };

/**
 * How well something is known: a text or a court says so; a choice that the site's counsel must confirm; a figure that
 * was not read in its source; a rule that the site gave itself.
 */
export type Standing = 'settled' | 'assumption' | 'from memory' | 'own rule';

/** Something that a rule rests on, and how well it is known; about one trigger, or about all of them. */
export interface Claim {
	readonly standing: Standing;
	readonly about: string;
	readonly trigger?: Trigger;
}

/** One limit: so long after any of these triggers the template must be gone. */
export interface RetentionRule {
	/** Unique in its pack; answers write it `pack/rule`. */
	readonly id: string;
	readonly title: string;
	readonly triggers: readonly Trigger[];
	readonly period: Period;
	readonly statute: string;
	readonly section: string;
	readonly claims: readonly Claim[];
	readonly cautions: readonly string[];
}

/** How long an answer to a person's request may take, counted from the day of receipt. */
export interface ResponseRule {
	readonly months: number;
	/** Months from receipt once the extension was told to the person within the first period; null: no extension known. */
	readonly extendedMonths: number | null;
	readonly source: string;
	readonly claims: readonly Claim[];
}

/** Something that must be done some days before the first go-live. */
export interface DisclosureRule {
	readonly daysBefore: number;
	readonly does: string;
	readonly source: string;
	readonly claims: readonly Claim[];
}

/** The law of one place on how long templates may be kept: one file in `packs/`, its default export made by `definePack`. */
export interface RulePack {
	/** As in `privacy.regimes`. */
	readonly id: string;
	/** Where it stands in the table that decides ties; packs that share a row share the number. */
	readonly row: number;
	readonly title: string;
	/** Whose templates it reaches, in a sentence. */
	readonly covers: string;
	readonly rules: readonly RetentionRule[];
	/** Why the site must give a period of its own; null where the law has one, or needs none. */
	readonly sitePeriodRequired: string | null;
	readonly response: ResponseRule | null;
	readonly disclosure: DisclosureRule | null;
	readonly cautions: readonly string[];
	readonly source: string;
	readonly lastReviewed: LocalDate;
}

/** Gives a rule pack its types; the identity otherwise. */
export function definePack(pack: RulePack): RulePack {
	return pack;
}

/** What a rule is called in answers. */
export function ruleName(pack: Pick<RulePack, 'id'>, rule: Pick<RetentionRule, 'id'>): string {
	return `${pack.id}/${rule.id}`;
}

/** Statute and section of a rule, as answers show them. */
export function sourceOf(rule: Pick<RetentionRule, 'statute' | 'section'>): string {
	return rule.section === '' ? rule.statute : `${rule.statute}, ${rule.section}`;
}

const weakestFirst: readonly Standing[] = ['from memory', 'assumption', 'settled', 'own rule'];

/** How well a rule is known for a trigger: as well as the weakest claim that concerns it. */
export function standingOf(rule: Pick<RetentionRule, 'claims'>, trigger: Trigger): Standing {
	const standings = rule.claims
		.filter((claim) => claim.trigger === undefined || claim.trigger === trigger)
		.map((claim) => claim.standing);
	return weakestFirst.find((standing) => standings.includes(standing)) ?? 'assumption';
}
