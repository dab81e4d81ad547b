import type { Privacy } from '../document/schema';
import { localDate } from '../calendar/local-date';
import { type RetentionRule, type RulePack, definePack } from './define-pack';

type SiteRules = Privacy['siteRules'];

const own = {
	statute: "The site's own rule",
	section: '',
	claims: [{ standing: 'own rule', about: 'Stricter than, or beside, what the law asks for.' }],
	cautions: ['A limit of the site never extends one of the law: whichever comes first governs.']
} as const;

const makers: Readonly<Record<keyof SiteRules, (days: number) => RetentionRule>> = {
	daysAfterLeaving: (days) => ({
		id: 'days-after-leaving',
		title: `${days} days after leaving`,
		triggers: ['left'],
		period: { unit: 'days', count: days },
		...own
	}),
	daysUnused: (days) => ({
		id: 'days-unused',
		title: `${days} days after the last use`,
		triggers: ['last-use'],
		period: { unit: 'days', count: days },
		...own
	})
};

/** The site's own rules as answers write them, in the order in which they go first on a tie. */
export const siteRuleIds: readonly string[] = ['site/days-after-leaving', 'site/days-unused'];

/** The limits that a site gave itself, in the shape of a rule pack; what it left out is no rule. */
export function sitePack(rules: SiteRules): RulePack {
	const { daysAfterLeaving, daysUnused } = rules;
	return definePack({
		id: 'site',
		row: 1000,
		title: "The site's own rules",
		covers: 'Every template of this site.',
		rules: [
			...(daysAfterLeaving === null ? [] : [makers.daysAfterLeaving(daysAfterLeaving)]),
			...(daysUnused === null ? [] : [makers.daysUnused(daysUnused)])
		],
		sitePeriodRequired: null,
		response: null,
		disclosure: null,
		cautions: [],
		source: 'privacy.siteRules of the rollout',
		lastReviewed: localDate('2026-11-25')
	});
}
