import { rulePacks } from '$lib/core/privacy/packs';
import { type Period, ruleName, sourceOf, standingOf } from '$lib/core/privacy/define-pack';
import type { PageServerLoad } from './$types';

const triggerWords = {
	left: 'left',
	withdrew: 'withdrew or declined',
	'last-use': 'last use',
	unneeded: 'no longer needed'
} as const;

export const load: PageServerLoad = () => ({
	packs: [...rulePacks.values()].map((pack) => ({
		id: pack.id,
		title: pack.title,
		covers: pack.covers,
		source: pack.source,
		lastReviewed: pack.lastReviewed,
		sitePeriodRequired: pack.sitePeriodRequired,
		cautions: pack.cautions,
		response: pack.response && { months: pack.response.months, source: pack.response.source },
		disclosure: pack.disclosure && {
			does: pack.disclosure.does,
			daysBefore: pack.disclosure.daysBefore,
			source: pack.disclosure.source
		},
		rules: pack.rules.map((rule) => ({
			name: ruleName(pack, rule),
			title: rule.title,
			latest: periodWords(rule.period),
			source: sourceOf(rule),
			triggers: rule.triggers.map((trigger) => ({ words: triggerWords[trigger], standing: standingOf(rule, trigger) })),
			cautions: rule.cautions
		}))
	}))
});

function periodWords(period: Period): string {
	if (period.unit === 'none') return 'the day itself';
	return `${period.count} ${period.unit} after it`;
}
