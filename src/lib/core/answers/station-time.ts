import { z } from 'zod';
import { amount } from '../document/fields';
import { counted, nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { type StationSeen, estimateByStation } from '../enrollment/station-time/by-station';
import {
	type FarFigure,
	type PublishedFigure,
	farFromPublished,
	publishedFigures
} from '../enrollment/station-time/published-figures';
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
	/** Stations with visits, as a factor on the estimates of the classes. */
	readonly stations: readonly StationSeen[];
	readonly published: readonly PublishedFigure[];
	/** Estimates far from a published figure. */
	readonly far: readonly FarFigure[];
}

export default defineAnswer<{ confidence: number }, StationTimeAnswer>({
	name: 'station-time',
	summary: 'How long people really take at a station, learned from the visits that are over, beside what was assumed.',
	params,
	run(rollout, { confidence }) {
		const found = estimateStationTime(rollout, confidence);
		const stations = estimateByStation(rollout, found.classes, confidence);
		return Promise.resolve(
			ok({ ...found, confidence, stations, published: publishedFigures, far: farFromPublished(found) })
		);
	},
	isBad: () => false,
	text
});

const shareWords = {
	minutes: 'station time',
	noShow: 'did not come',
	repeatVisit: 'had to come again',
	failToEnroll: 'could not be enrolled'
};

function text(
	{ classes, published, confidence, stations, far, ...shares }: StationTimeAnswer,
	rollout: Rollout
): string {
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
				shareRow(shareWords.noShow, shares.noShow),
				shareRow(shareWords.repeatVisit, shares.repeatVisit),
				shareRow(shareWords.failToEnroll, shares.failToEnroll)
			]
		),
		...classes
			.filter(({ doubtful }) => doubtful.length > 0)
			.map(
				({ captureClass, doubtful, withoutDoubtful }) =>
					`${nameOf(rollout.enrollment.captureClasses, captureClass)}: ${counted(doubtful.length, 'visit')} far from the others; ` +
					`without, the estimate is ${minutes(withoutDoubtful ?? 0)} minutes.`
			),
		...(stations.length === 0
			? []
			: [
					table(
						['Station', 'Visits', 'Mean', 'Against the estimates', interval],
						stations.map(({ station, visits, mean, estimate, low, high }) => [
							station === null ? 'not told' : nameOf(rollout.enrollment.stations, station),
							String(visits),
							minutes(mean),
							percent(estimate),
							`${percent(low)} to ${percent(high)}`
						])
					)
				]),
		...far.map(
			({ of, captureClass, estimate, is, published: figure }) =>
				`${captureClass === undefined ? shareWords[of] : nameOf(rollout.enrollment.captureClasses, captureClass)}: ` +
				`${of === 'minutes' ? `${minutes(estimate)} minutes` : percent(estimate)} is ${is} what was published: ` +
				`${figure.what}, ${figure.value}.`
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
