import { z } from 'zod';
import { amount, whole } from '../document/fields';
import { counted } from '../document/names';
import type { Rollout } from '../document/schema';
import { type Forecast, outlookOf } from '../enrollment/forecast/forecast';
import type { DueReserve, Reserve } from '../enrollment/forecast/reserve';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';
import forecast from './forecast';

const params = z.strictObject({
	runs: whole(1, 1_000_000).default(2000).describe('Futures to play out'),
	seed: whole().default(1).describe('Same seed, same outlook'),
	confidence: amount(0.5, 0.999).default(0.9).describe('Share of futures in which the time kept free should suffice')
});

type Params = z.output<typeof params>;

/** Confidences that are reckoned beside the chosen one. */
export const usualConfidences = [0.8, 0.9, 0.95, 0.99];

/** What `outlook` answers: the forecast with its days, and the time to keep free, by confidence. */
export interface Outlook extends Forecast {
	readonly confidence: number;
	readonly reserves: readonly Reserve[];
}

export default defineAnswer<Params, Outlook>({
	name: 'outlook',
	summary:
		'The forecast day by day: how many are likely to be enrolled by the end of each, and the time to keep free for those who must come again.',
	params,
	run(rollout, options, work) {
		const confidences = [...new Set([...usualConfidences, options.confidence])].sort((a, b) => a - b);
		const found = outlookOf(rollout, { ...options, confidences }, work);
		return Promise.resolve(ok({ ...found, confidence: options.confidence }));
	},
	isLong: true,
	isBad: () => false,
	text
});

function text(outlook: Outlook, rollout: Rollout, asked: Params): string {
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
	const dues = outlook.reserves.find(({ confidence }) => confidence === outlook.confidence)?.dues ?? [];
	return [
		forecast.text(outlook, rollout, asked),
		table,
		...dues.map((due) => reserveText(due, outlook.confidence))
	].join('\n\n');
}

/** What to keep free up to a due date, in sentences. */
function reserveText(due: DueReserve, confidence: number): string {
	const until = due.date === null ? 'In all' : `Up to ${due.date}`;
	const weeks = due.weeks.filter(({ appointments }) => appointments > 0);
	return [
		`${until}, so that rebookings end in time in ${100 * confidence} of 100 futures: keep ` +
			`${counted(due.appointments, 'appointment')} free, ${due.minutes} minutes; ${due.room} still fit beside the plan` +
			`${due.isKept ? '' : ', which is not enough, or too early'}.`,
		...weeks.map(
			({ from, until: last, appointments, minutes, room }) =>
				`  ${from} to ${last}: ${appointments} (${minutes} min), ${room} fit`
		),
		...(due.late.mean < 0.005
			? []
			: [`  ${due.late.mean.toFixed(2)} people on average are too late for that: no later day before they are due.`])
	].join('\n');
}
