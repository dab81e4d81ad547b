import { z } from 'zod';
import { amount } from '../document/fields';
import { counted, nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { type PublishedFigure, publishedFigures } from '../enrollment/station-time/published-figures';
import { type ShareEstimate, type StationTime, estimateStationTime } from '../enrollment/station-time/station-time';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';

const params = z.strictObject({
	confidence: amount(0.5, 0.999).default(0.9).describe('Confidence of the intervals')
});

/** What `station-time` answers. */
export interface StationTimeAnswer extends StationTime {
	readonly confidence: number;
	readonly published: readonly PublishedFigure[];
}

export default defineAnswer<{ confidence: number }, StationTimeAnswer>({
	name: 'station-time',
	summary: 'How long people really take at a station, learned from the visits that are over, beside what was assumed.',
	params,
	run: (rollout, { confidence }) =>
		Promise.resolve(ok({ ...estimateStationTime(rollout, confidence), confidence, published: publishedFigures })),
	isBad: () => false,
	text
});

function text({ classes, published, confidence, ...shares }: StationTimeAnswer, rollout: Rollout): string {
	const minutes = (value: number): string => value.toFixed(1);
	const classRows = classes.map((one) => [
		nameOf(rollout.enrollment.captureClasses, one.captureClass),
		String(one.planned),
		one.stages === null ? '' : minutes(one.stages),
		String(one.visits),
		one.mean === null ? '' : minutes(one.mean),
		minutes(one.estimate),
		`${minutes(one.low)} to ${minutes(one.high)}`,
		String(one.suggested)
	]);
	const shareRow = (what: string, { assumed, count, of, estimate, low, high }: ShareEstimate): string[] => [
		what,
		percent(assumed),
		`${count} of ${of}`,
		percent(estimate),
		`${percent(low)} to ${percent(high)}`
	];
	const interval = `${percent(confidence)} interval`;
	return [
		table(['Capture class', 'Planned', 'Stages', 'Visits', 'Mean', 'Estimate', interval, 'To plan with'], classRows),
		table(
			['Share', 'Assumed', 'Seen', 'Estimate', interval],
			[
				shareRow('did not come', shares.noShow),
				shareRow('had to come again', shares.repeatVisit),
				shareRow('could not be enrolled', shares.failToEnroll)
			]
		),
		...classes
			.filter(({ doubtful }) => doubtful.length > 0)
			.map(
				({ captureClass, doubtful, withoutDoubtful }) =>
					`${nameOf(rollout.enrollment.captureClasses, captureClass)}: ${counted(doubtful.length, 'visit')} far from the others; ` +
					`without, the estimate is ${minutes(withoutDoubtful ?? 0)} minutes.`
			),
		[
			'Published figures, for plausibility only:',
			...published.map(({ what, value, source, standing }) => `  ${what}: ${value} (${source}; ${standing})`)
		].join('\n')
	].join('\n\n');
}

function table(headings: readonly string[], rows: readonly string[][]): string {
	return textTable(
		headings.map((heading) => ({ heading })),
		rows
	);
}

function percent(share: number): string {
	return `${(100 * share).toFixed(1)} %`;
}
