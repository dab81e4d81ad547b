import { checks } from '$lib/core/checks';
import type { Severity } from '$lib/core/kernel/finding';
import type { PageServerLoad } from './$types';

const order: readonly Severity[] = ['error', 'warning', 'note'];

export const load: PageServerLoad = () => ({
	groups: order.map((severity) => ({
		severity,
		checks: [...checks.values()]
			.filter((check) => check.severity === severity)
			.map(({ code, title, why, mend, source }) => ({ code, title, why, mend, source }))
	}))
});
