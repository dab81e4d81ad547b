import type { Privacy } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import { type RetentionRule, type RulePack, ruleName } from './define-pack';
import { rulePacks } from './packs';
import { sitePack } from './site-rules';

/**
 * The rule packs that apply at a site, the site's own rules last, in the order that decides ties. A pack listed twice
 * applies once. Throws for an id that is no rule pack: reading the document refuses it.
 */
export function packsOf(privacy: Pick<Privacy, 'regimes' | 'siteRules'>): RulePack[] {
	const packs = [...new Set(privacy.regimes)].map((id) => {
		const pack = rulePacks.get(id);
		if (pack === undefined) throw new RangeError(`${JSON.stringify(id)} is no rule pack`);
		return pack;
	});
	return [...packs, sitePack(privacy.siteRules)].sort((a, b) => a.row - b.row || byCodeUnits(a.id, b.id));
}

/** The rules that apply at a site, by the name under which answers write them. */
export function rulesByName(privacy: Pick<Privacy, 'regimes' | 'siteRules'>): ReadonlyMap<string, RetentionRule> {
	return new Map(packsOf(privacy).flatMap((pack) => pack.rules.map((rule) => [ruleName(pack, rule), rule] as const)));
}
