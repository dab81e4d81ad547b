import { rolloutSchema } from '../../src/lib/core/document/schema';
import { planEnrollment } from '../../src/lib/core/enrollment/plan';
import { sessionsOf } from '../../src/lib/core/enrollment/sessions';
import { type PlantedTerms, planted } from '../support/planted';
import { type Bench, type Figure, timeText } from './bench';
import { planByIntegerProgram } from './ip-plan';
import { planOneByOne } from './simple-plans';

const short = ['09:00-10:30', '13:00-14:00', '20:00-20:50'];

/** With `ip`, seconds for a general-purpose integer-programming solver; larger ones do not come to an end. */
const sites: readonly { readonly terms: PlantedTerms; readonly seconds: number; readonly ip?: number }[] = [
	{
		terms: { people: 25, stations: 2, days: 10, use: 0.8, seed: 1, isTight: true, stretches: short },
		seconds: 2,
		ip: 60
	},
	{
		terms: { people: 25, stations: 2, days: 10, use: 1, seed: 2, isTight: true, stretches: short },
		seconds: 2,
		ip: 60
	},
	{
		terms: { people: 40, stations: 2, days: 10, use: 0.9, seed: 3, isTight: true, stretches: short, withLimits: true },
		seconds: 2,
		ip: 60
	},
	{
		terms: { people: 60, stations: 3, days: 12, use: 0.97, seed: 4, isTight: true, stretches: short },
		seconds: 2,
		ip: 60
	},
	{ terms: { people: 300, stations: 3, days: 14, use: 0.97, seed: 1, isTight: true }, seconds: 2 },
	{ terms: { people: 1000, stations: 5, days: 20, use: 0.5, seed: 1, isTight: true }, seconds: 10 },
	{ terms: { people: 1000, stations: 5, days: 14, use: 0.97, seed: 1, isTight: true, withLimits: true }, seconds: 10 },
	{ terms: { people: 10_000, stations: 20, days: 30, use: 0.97, seed: 1, isTight: true }, seconds: 10 },
	{ terms: { people: 10_000, stations: 20, days: 30, use: 1, seed: 1, isTight: true }, seconds: 10 }
];

/**
 * Plans of sites for which a plan for everybody is known, beside a general-purpose integer-programming solver (HiGHS) where it
 * can solve them, plans made one person after the other, and the bounds.
 */
const bench: Bench = {
	name: 'plan',
	title: 'Enrollment plans for invented sites where everybody can be booked: people, sessions, time',
	async run() {
		const figures: Figure[] = [];
		for (const site of sites) figures.push(await figureOf(site));
		return figures;
	}
};

async function figureOf({ terms, seconds, ip }: (typeof sites)[number]): Promise<Figure> {
	const { document, bookings: known } = planted(terms);
	const rollout = rolloutSchema.parse(document);
	const start = performance.now();
	const plan = planEnrollment(
		rollout,
		{ seconds, seed: 1 },
		{
			report: () => undefined,
			isCancelled: () => false,
			secondsSpent: () => (performance.now() - start) / 1000
		}
	);
	const spent = performance.now() - start;
	const share = (count: number): string => `${((100 * count) / known).toFixed(2)} %`;
	const solved = ip === undefined ? undefined : await planByIntegerProgram(rollout, ip);
	const solver = solved
		? `solver ${share(solved.booked)} in ${solved.sessions}${solved.isProven ? ' (best)' : ''}, ${timeText(1000 * solved.seconds)}; `
		: ip === undefined
			? ''
			: 'solver: no plan in time; ';
	const simple = (['first-come', 'earliest-due'] as const).map((order) => {
		const made = planOneByOne(rollout, order);
		return `${order} ${share(made.length)} in ${sessionsOf(rollout, made).length}`;
	});
	return {
		what: `${known} people, ${100 * terms.use} % use${terms.withLimits === true ? ', away-limits' : ''}`,
		ours: `${share(plan.bookings.length)} in ${plan.sessions.length}, ${timeText(spent)}`,
		beside: `${solver}${simple.join(', ')}`,
		note: `bounds: ${plan.bounds.bookable} people, ${plan.bounds.sessions} sessions${plan.optimal ? '; proven best' : ''}`
	};
}

export default bench;
