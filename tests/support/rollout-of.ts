import { type Rollout, type RolloutDocument, rolloutSchema } from '$lib/core/document/schema';

/** A valid rollout that says only what a test is about; the rest is what the format requires, or its defaults. */
export function rolloutOf(parts: Partial<RolloutDocument> = {}): Rollout {
	return rolloutSchema.parse({
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Invented site', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		...parts
	});
}
