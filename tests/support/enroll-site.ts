import type { RolloutDocument } from '../../src/lib/core/document/schema';

/** A person of an invented site: id, capture class, and what else a test is about. */
export type SitePerson = { id: string } & Partial<NonNullable<RolloutDocument['people']>[number]>;

/**
 * A rollout for a test about enrolling: people who are always free, one area, and stations that are open as given. Capture
 * classes are named after their minutes: `c8`.
 */
export function enrollSite(parts: {
	people: readonly SitePerson[];
	open: Readonly<Record<string, readonly string[]>>;
	minutes?: readonly number[];
	turnover?: number;
	grid?: number;
	lanes?: number;
	more?: Partial<NonNullable<RolloutDocument['enrollment']>>;
	rest?: Partial<RolloutDocument>;
}): RolloutDocument {
	const { people, open, minutes = [8], turnover = 0, grid = 1, lanes = 1, more = {}, rest = {} } = parts;
	return {
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Invented site', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		areas: [{ id: 'lobby' }, { id: 'packing' }],
		people: [...people],
		enrollment: {
			gridMinutes: grid,
			captureClasses: minutes.map((one) => ({ id: `c${one}`, minutes: one })),
			stations: Object.entries(open).map(([id, stretches]) => ({
				id,
				area: 'lobby',
				lanes,
				turnoverMinutes: turnover,
				open: stretches.map((stretch) => ({ date: stretch.slice(0, 10) as never, at: stretch.slice(11) }))
			})),
			...more
		},
		...rest
	} as RolloutDocument;
}
