import { type Rollout, rolloutSchema } from '../../src/lib/core/document/schema';
import { type EnrollmentPlan, planEnrollment } from '../../src/lib/core/enrollment/plan';
import { sessionsOf } from '../../src/lib/core/enrollment/sessions';
import type { Work } from '../../src/lib/core/kernel/work';
import { type PlantedTerms, planted } from '../support/planted';
import type { Bench } from './bench';
import { planByIntegerProgram } from './ip-plan';
import { planOneByOne } from './simple-plans';

const short = ['09:00-10:30', '13:00-14:00', '20:00-20:50'];

interface Site {
	readonly terms: PlantedTerms;
	/** Seconds for our planner. */
	readonly seconds: number;
	/** Seconds for a general-purpose integer-programming solver; larger sites do not come to an end. */
	readonly ip?: number;
	readonly isLong?: boolean;
}

/** Small ones, which the solver can do; the share of open time that the known plan uses is that of `use`. */
const small: readonly Site[] = [
	{ people: 25, stations: 2, days: 10, use: 0.8, seed: 1 },
	{ people: 25, stations: 2, days: 10, use: 1, seed: 2 },
	{ people: 40, stations: 2, days: 10, use: 0.9, seed: 3, withLimits: true },
	{ people: 60, stations: 3, days: 12, use: 0.97, seed: 4 }
].map((terms) => ({ terms: { ...terms, isTight: true, stretches: short }, seconds: 2, ip: 30 }));

const sizes = [
	{ people: 300, stations: 3, days: 14, seconds: 2, isLong: false },
	{ people: 1000, stations: 5, days: 14, seconds: 10, isLong: false },
	{ people: 10_000, stations: 20, days: 30, seconds: 10, isLong: false },
	{ people: 30_000, stations: 60, days: 30, seconds: 60, isLong: true }
] as const;

const large: readonly Site[] = sizes.flatMap(({ people, stations, days, seconds, isLong }) =>
	[0.7, 0.9, 0.97, 1].map((use) => ({
		terms: { people, stations, days, use, seed: 1, isTight: true, withLimits: people === 1000 },
		seconds,
		isLong
	}))
);

/**
 * Plans of sites for which a plan for everybody is known, beside a general-purpose integer-programming solver (HiGHS) where it
 * can solve them, plans made one person after the other, and the bounds.
 */
const bench: Bench = {
	name: 'plan',
	title:
		'Enrollment plans for invented sites where everybody can be booked. Memory is that of the whole program, at its highest while the row was made.',
	async run({ isLong }) {
		const rows: string[][] = [];
		for (const site of [...small, ...large]) {
			if (site.isLong !== true || isLong) rows.push(...(await rowsOf(site)));
		}
		const columns = [
			{ heading: 'People', isFigure: true },
			{ heading: 'Use', isFigure: true },
			{ heading: 'Plan' },
			{ heading: 'Booked', isFigure: true },
			{ heading: 'Share', isFigure: true },
			{ heading: 'Sessions', isFigure: true },
			{ heading: 'Seconds', isFigure: true },
			{ heading: 'Memory, MB', isFigure: true },
			{ heading: 'Note' }
		];
		return { columns, rows };
	}
};

interface Row {
	readonly booked: number;
	readonly sessions: number;
	readonly note?: string;
}

async function rowsOf({ terms, seconds, ip }: Site): Promise<string[][]> {
	const { document, bookings: known } = planted(terms);
	const rollout = rolloutSchema.parse(document);
	const head = [String(known), `${Math.round(100 * terms.use)} %`];
	const figures = ({ booked, sessions }: Row): string[] => [
		String(booked),
		`${((100 * booked) / known).toFixed(2)} %`,
		String(sessions)
	];
	const measured = async (name: string, make: (meter: Meter) => Row | undefined | Promise<Row | undefined>) => {
		const meter = new Meter();
		const row = await make(meter);
		const [spent, memory] = [meter.seconds().toFixed(2), String(meter.megabytes())];
		return row
			? [...head, name, ...figures(row), spent, memory, row.note ?? '']
			: [...head, name, '', '', '', spent, memory, 'no plan in time'];
	};
	let plan: EnrollmentPlan | undefined;
	const rows = [
		await measured('ours', (meter) => {
			plan = planEnrollment(rollout, { seconds, seed: 1 }, meter.work);
			const limits = terms.withLimits === true ? 'away-limits' : '';
			const note = [limits, plan.optimal ? 'proven best' : '', plan.bookings.length === 0 ? 'no plan in time' : '']
				.filter((word) => word !== '')
				.join(', ');
			return { booked: plan.bookings.length, sessions: plan.sessions.length, note };
		}),
		await measured('first come, first served', () => byHand(rollout, 'first-come')),
		await measured('earliest due first', () => byHand(rollout, 'earliest-due'))
	];
	if (ip !== undefined) {
		rows.push(
			await measured('HiGHS', async () => {
				const solved = await planByIntegerProgram(rollout, ip);
				return solved && { ...solved, note: solved.isProven ? 'proven best' : `stopped at ${ip} s` };
			})
		);
	}
	const bounds = plan && { booked: plan.bounds.bookable, sessions: plan.bounds.sessions };
	if (bounds)
		rows.push([...head, 'bounds', ...figures(bounds), '', '', 'at most so many people, at least so many sessions']);
	return rows;
}

function byHand(rollout: Rollout, order: 'first-come' | 'earliest-due'): Row {
	const made = planOneByOne(rollout, order);
	return { booked: made.length, sessions: sessionsOf(rollout, made).length };
}

/** Seconds since it was made, and the most memory seen whenever it was asked for the time. */
class Meter {
	readonly #start = performance.now();
	#most = process.memoryUsage.rss();

	readonly work: Work = {
		report: () => undefined,
		isCancelled: () => false,
		secondsSpent: () => {
			this.megabytes();
			return this.seconds();
		}
	};

	seconds(): number {
		return (performance.now() - this.#start) / 1000;
	}

	megabytes(): number {
		this.#most = Math.max(this.#most, process.memoryUsage.rss());
		return Math.round(this.#most / 1e6);
	}
}

export default bench;
