import fc from 'fast-check';
import type { PlainPrivacyDocument } from '../oracles/retention-oracle';

/**
 * Rollouts about consent and retention, as written. People, places and dates come from small pools, so that ties, month
 * ends, leap days, limits that meet and entries of one date are common.
 */

const dates = [
	'2024-02-28',
	'2024-02-29',
	'2025-12-31',
	'2026-02-28',
	'2026-12-01',
	'2027-01-31',
	'2027-02-01',
	'2027-02-28',
	'2027-03-01',
	'2027-03-02',
	'2027-03-30',
	'2027-03-31',
	'2027-04-01',
	'2028-02-29',
	'2029-01-31'
];

/** A date of the pool, or one near the middle of it. */
export const poolDate = fc.oneof(
	fc.constantFrom(...dates),
	fc.integer({ min: 0, max: 90 }).map((days) => new Date(Date.UTC(2027, 0, 31 + days)).toISOString().slice(0, 10))
);

const maybeDate = fc.option(poolDate, { nil: null });
const packs = ['us-il', 'us-tx', 'us-co', 'us-wa', 'eu', 'uk', 'fr', 'ca-qc'];
const personIds = ['p1', 'p2', 'p3'];
const noticeIds = ['n1', 'n2', 'n3', 'n4'];
const places = ['c1', 'c2', 'backup'];
const person = fc.constantFrom(...personIds);

const template = fc.record(
	{
		person,
		enrolledOn: poolDate,
		lastUsedOn: maybeDate,
		unneededSince: maybeDate,
		storedOn: fc.array(fc.constantFrom(...places), { minLength: 1, maxLength: 3 }),
		erasures: fc.array(fc.record({ from: fc.constantFrom(...places), on: poolDate }), { maxLength: 4 })
	},
	{ requiredKeys: ['person', 'enrolledOn', 'storedOn'] }
);

const consent = fc.record({
	person,
	notice: fc.constantFrom(...noticeIds),
	decision: fc.constantFrom('given' as const, 'given' as const, 'declined' as const, 'withdrawn' as const),
	on: poolDate
});

const hold = fc
	.record({ person, from: maybeDate, until: maybeDate }, { requiredKeys: ['person'] })
	.map(({ person, from, until }) =>
		from && until && from > until ? { person, from: until, until: from } : { person, from, until }
	);

const notices = fc
	.tuple(
		...noticeIds.map((id) =>
			fc
				.record(
					{
						publishedOn: maybeDate,
						replaces: fc.option(fc.constantFrom(...noticeIds), { nil: null }),
						needsFreshConsent: fc.boolean()
					},
					{ requiredKeys: [] }
				)
				.map((rest) => ({ id, ...rest }))
		)
	)
	.map((all) => [...all]);

const siteDays = fc.option(fc.oneof(fc.integer({ min: 0, max: 60 }), fc.constantFrom(365, 731, 1095)), { nil: null });

export type RetentionDocument = PlainPrivacyDocument & {
	format: 'doorwright.rollout';
	version: 1;
	site: { name: string; timeZone: string };
	horizon: { from: string; until: string };
};

/** A document of the format with everything that the reckoning looks at. */
export const retentionDocument: fc.Arbitrary<RetentionDocument> = fc
	.record({
		leaving: fc.tuple(maybeDate, maybeDate, maybeDate),
		regimes: fc.oneof(fc.subarray(packs), fc.shuffledSubarray([...packs, 'eu', 'uk'])),
		siteRules: fc.option(fc.record({ daysAfterLeaving: siteDays, daysUnused: siteDays }, { requiredKeys: [] }), {
			nil: null
		}),
		notices,
		consents: fc.array(consent, { maxLength: 8 }),
		templates: fc.array(template, { maxLength: 4 }),
		holds: fc.array(hold, { maxLength: 2 })
	})
	.map(({ leaving, ...privacy }) => ({
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Invented site', timeZone: 'Europe/Dublin' },
		horizon: { from: '2027-01-01', until: '2027-12-31' },
		people: personIds.map((id, index) => ({ id, leavesOn: leaving[index] ?? null })),
		privacy
	}));
