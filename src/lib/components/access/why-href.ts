import { explainedCodes } from '$lib/core/checks/support/explained-at';
import type { Finding } from '$lib/core/kernel/finding';

/** The path below a rollout that leads from a finding to its explanation; null for findings that are not about one door. */
export function whyHref({ code, subject }: Pick<Finding, 'code' | 'subject'>): string | null {
	if (!explainedCodes.has(code)) return null;
	const query = new URLSearchParams({ code });
	for (const [name, value] of Object.entries(subject)) if (typeof value === 'string') query.set(name, value);
	return `access/why?${query.toString()}`;
}
