import { rolloutSchema } from '../../src/lib/core/document/schema';
import { planEnrollment } from '../../src/lib/core/enrollment/plan';
import { type PlantedTerms, planted } from '../support/planted';
import { type Bench, type Figure, timeText } from './bench';
import { planOneByOne } from './simple-plans';

const sites: readonly PlantedTerms[] = [
	{ people: 300, stations: 3, days: 14, use: 0.97, seed: 1, isTight: true },
	{ people: 1000, stations: 5, days: 20, use: 0.5, seed: 1, isTight: true },
	{ people: 1000, stations: 5, days: 14, use: 0.97, seed: 1, isTight: true, withLimits: true },
	{ people: 10_000, stations: 20, days: 30, use: 0.97, seed: 1, isTight: true },
	{ people: 10_000, stations: 20, days: 30, use: 1, seed: 1, isTight: true }
];

/** Plans of sites for which a plan for everybody is known, beside plans made one person after the other, and the bounds. */
const bench: Bench = {
	name: 'plan',
	title: 'Enrollment plans for invented sites where everybody can be booked',
	run: () => Promise.resolve(sites.map(figureOf))
};

function figureOf(terms: PlantedTerms): Figure {
	const { document, bookings: known } = planted(terms);
	const rollout = rolloutSchema.parse(document);
	const start = performance.now();
	const plan = planEnrollment(
		rollout,
		{ seconds: 10, seed: 1 },
		{
			report: () => undefined,
			isCancelled: () => false,
			secondsSpent: () => (performance.now() - start) / 1000
		}
	);
	const spent = performance.now() - start;
	const share = (count: number): string => `${((100 * count) / known).toFixed(2)} %`;
	const firstCome = planOneByOne(rollout, 'first-come').length;
	const earliestDue = planOneByOne(rollout, 'earliest-due').length;
	return {
		what: `${known} people, ${100 * terms.use} % use${terms.withLimits === true ? ', away-limits' : ''}`,
		ours: `${share(plan.bookings.length)} in ${plan.sessions.length} sessions, ${timeText(spent)}`,
		beside: `first come ${share(firstCome)}, earliest due ${share(earliestDue)}`,
		note: `bounds: ${plan.bounds.bookable} people, ${plan.bounds.sessions} sessions`
	};
}

export default bench;
