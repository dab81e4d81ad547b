import { error } from '@sveltejs/kit';
import check from '$lib/core/answers/check';
import { checks } from '$lib/core/checks';
import { groupBy } from '$lib/core/kernel/group-by';
import { whyHref } from '$lib/components/access/why-href';
import { ask } from '$lib/server/rollouts';
import { rolloutOf } from '$lib/server/http/change';
import { mendHref } from '$lib/server/views/mends';
import type { PageServerLoad } from './$types';

/** Findings of one code shown at first; the rest on request. */
const most = 12;

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const outcome = await ask(open, check, {});
	if (!outcome.ok) error(422, outcome.faults[0]?.message ?? 'The document cannot be checked.');
	const whole = url.searchParams.get('all');
	const groups = [...groupBy(outcome.value.findings, ({ code }) => code)].map(([code, findings]) => {
		const definition = checks.get(code);
		if (!definition) throw new Error(`no check ${code}`);
		const shown = whole === code ? findings : findings.slice(0, most);
		return {
			code,
			severity: definition.severity,
			title: definition.title,
			why: definition.why,
			mend: definition.mend,
			source: definition.source,
			count: findings.length,
			findings: shown.map((finding) => ({
				message: finding.message,
				dates: finding.dates,
				count: finding.count,
				explained: whyHref(finding),
				href: definition.mendAt(finding.subject),
				mends: mendHref(code, finding.subject)
			}))
		};
	});
	return { counts: outcome.value.counts, groups, whole };
};
