import { z } from 'zod';
import { whole } from '../document/fields';
import type { Rollout } from '../document/schema';
import { type Forecast, forecastEnrollment } from '../enrollment/forecast/forecast';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';
import forecast from './forecast';

const params = z.strictObject({
	runs: whole(1, 1_000_000).default(2000).describe('Futures to play out'),
	seed: whole().default(1).describe('Same seed, same outlook')
});

export default defineAnswer<{ runs: number; seed: number }, Forecast>({
	name: 'outlook',
	summary: 'The forecast day by day: how many are likely to be enrolled by the end of each day with a station open.',
	params,
	run: (rollout, options, work) => Promise.resolve(ok(forecastEnrollment(rollout, options, work))),
	isLong: true,
	isBad: () => false,
	text
});

function text(outlook: Forecast, rollout: Rollout, asked: { runs: number; seed: number }): string {
	const columns = ['By the end of', 'Enrolled, mean', '1 of 10 futures at most', 'Half at least', '1 of 10 at least'];
	const rows = outlook.days.map(({ date, mean, p10, p50, p90 }) => [
		date,
		mean.toFixed(1),
		String(p10),
		String(p50),
		String(p90)
	]);
	const table = textTable(
		columns.map((heading) => ({ heading })),
		rows
	);
	return [forecast.text(outlook, rollout, asked), table].join('\n\n');
}
