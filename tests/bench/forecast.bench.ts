import { rolloutSchema } from '../../src/lib/core/document/schema';
import { forecastEnrollment } from '../../src/lib/core/enrollment/forecast/forecast';
import { planted } from '../support/planted';
import { type Bench, timeText } from './bench';

const runs = 2000;

/** What a forecast of a whole site takes, its starting plan included. */
const bench: Bench = {
	name: 'forecast',
	title: `${runs} futures of an invented site, the plan that they begin with included`,
	run() {
		const { document, bookings } = planted({ people: 1000, stations: 5, days: 20, use: 0.9, seed: 1, isTight: true });
		const assumptions = { noShow: 0.08, repeatVisit: 0.06, failToEnroll: 0.02, minutesSpread: 0.25 };
		const rollout = rolloutSchema.parse({ ...document, enrollment: { ...document.enrollment, assumptions } });
		const timed = (count: number) => {
			const start = performance.now();
			const found = forecastEnrollment(rollout, { runs: count, seed: 1 });
			return { found, spent: performance.now() - start };
		};
		const plan = timed(1);
		const { found, spent } = timed(runs);
		const enrolled = found.days.at(-1)?.mean ?? 0;
		return Promise.resolve([
			{
				what: `${bookings} people, 90 % use, 8 % do not come, 6 % come again, 2 % cannot be enrolled`,
				ours: timeText(spent),
				beside: `one future: ${timeText(plan.spent)}`,
				note: `${enrolled.toFixed(1)} enrolled in the mean; at most ${(0.98 * bookings).toFixed(1)} could be`
			}
		]);
	}
};

export default bench;
