import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';
import { localDate } from '../../src/lib/core/calendar/local-date';
import { monthFigures } from '../../src/lib/core/privacy/month-figures';
import { retentionOn } from '../../src/lib/core/privacy/retention';
import { ledgerLines } from '../../src/lib/server/views/retention';
import { type Bench, medianOf, timeText } from './bench';

const count = 100_000;

/** A site with a template, two consent entries and two places for each person; every pack applies. */
function manyTemplates(): unknown {
	const dateOf = (day: number) => new Date(Date.UTC(2024, 0, 1 + day)).toISOString().slice(0, 10);
	const range = <T>(make: (place: number) => T) => Array.from({ length: count }, (_, place) => make(place));
	return {
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Scale', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-01', until: '2027-12-31' },
		people: range((place) => ({
			id: String(100_000 + place),
			name: `Person ${place}`,
			...(place % 3 === 0 ? { leavesOn: dateOf(900 + (place % 400)) } : {})
		})),
		privacy: {
			regimes: ['us-il', 'us-tx', 'us-co', 'eu', 'uk', 'fr', 'ca-qc'],
			siteRules: { daysAfterLeaving: 7, daysUnused: 180 },
			notices: [{ id: 'n1', publishedOn: '2023-12-01' }],
			consents: range((place) => place).flatMap((place) => [
				{ person: String(100_000 + place), notice: 'n1', decision: 'given', on: dateOf(place % 300) },
				...(place % 5 === 0
					? [{ person: String(100_000 + place), notice: 'n1', decision: 'withdrawn', on: dateOf(800 + (place % 200)) }]
					: [])
			]),
			templates: range((place) => ({
				person: String(100_000 + place),
				enrolledOn: dateOf(300 + (place % 300)),
				lastUsedOn: dateOf(700 + (place % 400)),
				storedOn: ['c1', `c${2 + (place % 20)}`],
				erasures: place % 7 === 0 ? [{ from: 'c1', on: dateOf(1000 + (place % 90)) }] : []
			})),
			holds: range((place) => place)
				.filter((place) => place % 100 === 0)
				.map((place) => ({ person: String(100_000 + place), from: '2026-01-01', reason: 'Claim' }))
		}
	};
}

const bench: Bench = {
	name: 'retention',
	title: `Retention: ${count} templates, seven rule packs and the site's own rules`,
	async run() {
		const read = readRolloutValue(manyTemplates());
		if (!read.ok) throw new Error(read.faults[0]?.message);
		const { rollout } = read.value;
		const on = localDate('2026-11-25');
		const reckoned = await medianOf(3, () => retentionOn(rollout, on));
		const lines = await medianOf(3, () => ledgerLines(rollout, on));
		const month = await medianOf(3, () => monthFigures(rollout, on));
		return [
			{ what: 'the answer of a day', ours: timeText(reckoned), beside: 'bound: 2 s' },
			{ what: 'the ledger with its sentences', ours: timeText(lines), beside: 'bound: 2 s' },
			{ what: 'the figures of a month', ours: timeText(month), beside: 'bound: 2 s' }
		];
	}
};

export default bench;
