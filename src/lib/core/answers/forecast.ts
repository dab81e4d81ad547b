import { z } from 'zod';
import { whole } from '../document/fields';
import { counted, nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { type Forecast, forecastEnrollment } from '../enrollment/forecast/forecast';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';

const params = z.strictObject({
	runs: whole(1, 1_000_000).default(2000).describe('Futures to play out'),
	seed: whole().default(1).describe('Same seed, same forecast')
});

/** What `forecast` answers; the days stand in `outlook`. */
export type ForecastAnswer = Omit<Forecast, 'days'>;

export default defineAnswer<{ runs: number; seed: number }, ForecastAnswer>({
	name: 'forecast',
	summary:
		'When everybody is likely to be enrolled, and how many of each wave in time, with no-shows and repeat visits.',
	params,
	run(rollout, options, work) {
		const { runs, seed, finish, waves, visits } = forecastEnrollment(rollout, options, work);
		return Promise.resolve(ok({ runs, seed, finish, waves, visits }));
	},
	isLong: true,
	isBad: () => false,
	text
});

function text({ runs, finish, waves, visits }: ForecastAnswer, rollout: Rollout): string {
	if (visits.mean === 0) return 'Nobody is still to be enrolled, or nobody would come.';
	const dates = [
		['half of the futures', finish.p50],
		['80 of 100 futures', finish.p80],
		['95 of 100 futures', finish.p95]
	] as const;
	const rows = waves.map(({ wave, people, enrolledOnTime, allOnTime }) => [
		nameOf(rollout.enrollment.waves, wave),
		rollout.enrollment.waves.find(({ id }) => id === wave)?.enrollBy ?? 'no date',
		String(people),
		enrolledOnTime.mean.toFixed(1),
		`${enrolledOnTime.p10} to ${enrolledOnTime.p90}`,
		`${(100 * allOnTime).toFixed(1)} %`
	]);
	const columns = ['Wave', 'Enroll by', 'People', 'On time, mean', '8 of 10 futures', 'All on time'];
	return [
		`${counted(runs, 'future')} played out, ${visits.mean.toFixed(2)} visits a person.`,
		[
			'Nobody waits any more:',
			...dates.map(([share, date]) => `  in ${share} ${date === null ? noFinish : `by ${date}`}`)
		].join('\n'),
		...(rows.length === 0
			? []
			: [
					textTable(
						columns.map((heading) => ({ heading })),
						rows
					)
				]),
		assumptionsText(rollout)
	].join('\n\n');
}

const noFinish = 'never: the station time that is open does not suffice';

function assumptionsText({ enrollment: { assumptions } }: Rollout): string {
	const share = (value: number): string => `${(100 * value).toFixed(1)} %`;
	return (
		`Assumed: ${share(assumptions.noShow)} do not come, ${share(assumptions.repeatVisit)} of visits must be repeated, ` +
		`${share(assumptions.failToEnroll)} cannot be enrolled, station times spread by ${share(assumptions.minutesSpread)}. ` +
		'Whoever still waits is booked anew for a later day, where station time is left.'
	);
}
