import { shareInterval } from '../kernel/beta';

/**
 * How likely a fingerprint reader takes a stranger for somebody, and what a test must show to claim a rate. Chances are 0 to 1.
 * All of it assumes that comparisons err independently of each other; real ones do not quite (twins, one bad image against many), so
 * these are figures to plan with, not promises.
 */

/**
 * The chance that one attempt of a stranger matches one of so many templates: 1 - (1 - fmr)^templates.
 * @source facts section 2.7 (V-ID-01); the relation of ISO/IEC 19795-1 between false match rate and identification, independence assumed
 */
export function falseIdentification(fmr: number, templates: number): number {
	return -Math.expm1(templates * Math.log1p(-fmr));
}

/** The chance in some attempts, when each is by itself. */
export function inAttempts(chance: number, attempts: number): number {
	return -Math.expm1(attempts * Math.log1p(-chance));
}

/** The largest false match rate with which so many templates keep a chance of false identification. */
export function neededFalseMatchRate(chance: number, templates: number): number {
	return templates === 0 ? 1 : -Math.expm1(Math.log1p(-chance) / templates);
}

/** A door that identifies by a finger, with or without a number that must be typed as well. */
export interface DoorRiskTerms {
	readonly fmr: number;
	/** People who may open the door, and templates of each. */
	readonly people: number;
	readonly fingersEach: number;
	/** Tries that a stranger makes before somebody notices. */
	readonly attempts: number;
	/** Digits of the number; 0 for a door without one. */
	readonly pinDigits: number;
}

/**
 * The chance that a stranger opens a door. With a number, a template counts only where the number typed is that of its person; numbers
 * are taken to be chosen evenly, which people do not: common practice, no source.
 */
export function doorRisk({ fmr, people, fingersEach, attempts, pinDigits }: DoorRiskTerms): number {
	return inAttempts(falseIdentification(fmr * 10 ** -pinDigits, people * fingersEach), attempts);
}

/**
 * Trials without a single error after which, with 95 % confidence, the error rate is at most `rate`: the rule of 3, and exactly.
 * @source facts section 2.6; rule of 3 as quoted there
 */
export function trialsWithoutError(rate: number): { readonly ruleOf3: number; readonly exact: number } {
	return { ruleOf3: Math.ceil(3 / rate - 1e-9), exact: Math.ceil(Math.log(0.05) / Math.log1p(-rate) - 1e-9) };
}

/** Errors to be seen before a rate is known to 30 % either way with 90 % confidence: the rule of 30. */
export const errorsForRuleOf30 = 30;

/** Trials in which so many errors are to be expected at a rate. */
export function trialsForRuleOf30(rate: number): number {
	return Math.ceil(errorsForRuleOf30 / rate - 1e-9);
}

/**
 * How far the true rate may lie from the one seen, as a share of it, with 90 % confidence, by the normal approximation.
 * @source facts section 2.6: 1.645 / root of the errors
 */
export function halfWidthAt90(errors: number): number {
	return 1.645 / Math.sqrt(errors);
}

/** What a test tells of a rate: seen, and the interval of Clopper and Pearson at 95 %. */
export function testedRate(errors: number, trials: number): { seen: number; low: number; high: number } {
	return { seen: errors / trials, ...shareInterval(errors, trials, 0.95) };
}

/** People who are likely not to be enrollable. */
export interface FallbackNeed {
	readonly mean: number;
	/** The chance that there is at least one. */
	readonly any: number;
	/** So many credentials suffice with 95 % chance. */
	readonly p95: number;
}

/**
 * Other credentials to keep in stock when each of some people cannot be enrolled with a chance, by the binomial distribution.
 * @source facts V-PLAN-04
 */
export function fallbackNeed(people: number, failToEnroll: number): FallbackNeed {
	const mean = people * failToEnroll;
	if (failToEnroll <= 0 || people === 0) return { mean: 0, any: 0, p95: 0 };
	if (failToEnroll >= 1) return { mean, any: 1, p95: people };
	let chance = Math.exp(people * Math.log1p(-failToEnroll));
	let sum = chance;
	let count = 0;
	while (sum < 0.95 && count < people) {
		chance *= ((people - count) / (count + 1)) * (failToEnroll / (1 - failToEnroll));
		sum += chance;
		count++;
		// With very many people the first terms are too small to be held; begin near the mean then.
		if (chance === 0 && count < mean) return { mean, any: 1, p95: Math.ceil(mean + 1.645 * Math.sqrt(mean)) };
	}
	return { mean, any: -Math.expm1(people * Math.log1p(-failToEnroll)), p95: count };
}
