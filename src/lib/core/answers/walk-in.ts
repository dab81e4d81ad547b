import { z } from 'zod';
import { clockText } from '../calendar/stretch';
import { amount, date as dateText, oneOf, stretchText, text as textThat, whole } from '../document/fields';
import { counted } from '../document/names';
import { EnrollmentModel } from '../enrollment/model';
import { type LikelyArrivals, likelyArrivals } from '../enrollment/walk-in/likely-arrivals';
import { type WalkInDesk, serviceOf, walkInDesk } from '../enrollment/walk-in/walk-in-desk';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';

const mostAnHour = 400;
const expectedArrivals = 'people who come in each hour, at most 400 each, like 30 or 40,25,10';

const params = z.strictObject({
	open: stretchText
		.optional()
		.describe('When the desk is open, as 08:00-12:00; left out, as the station is on the date'),
	arrivals: textThat(expectedArrivals, (value) => arrivalsIn(value) !== undefined)
		.optional()
		.describe(
			'People who come in each hour from the opening on, as 40,25,10; the last number holds for the hours after it. ' +
				'Left out, from those still to be enrolled and their shifts, for a station and a date'
		),
	station: z.string().optional().describe('The station that is the desk'),
	date: dateText.optional().describe('The date on which it is looked at'),
	days: oneOf(['all', 'one'])
		.default('all')
		.describe('Likely arrivals spread over all days of the station, or all on this one'),
	lanes: whole(0, 1000).optional().describe('Lanes of the desk; left out, those of the station, or 1'),
	turnover: whole(0, 1440).optional().describe('Minutes between two people of a lane; left out, those of the station'),
	minutes: amount(0.1, 1440)
		.optional()
		.describe('Station time and turnover in minutes; left out, that of everybody still to be enrolled'),
	spread: amount(0, 10)
		.optional()
		.describe('Its standard deviation over its mean; left out, from the capture classes and the assumptions'),
	within: amount(0, 1440).default(10).describe('The wait in minutes that should not be exceeded'),
	share: amount(0, 1).default(0.9).describe('The share of people for whom it should not')
});

type Params = z.output<typeof params>;

/** What `walk-in` answers: the hours of the desk, and what it was reckoned with. */
export interface WalkInAnswer extends WalkInDesk {
	readonly open: string;
	/** People an hour, from the opening on. */
	readonly arrivals: readonly number[];
	/** Where the arrivals were reckoned: how many could come on that date, and how many others are to be enrolled; else null. */
	readonly likely: Pick<LikelyArrivals, 'people' | 'others'> | null;
	readonly turnover: number;
	readonly minutes: number;
	readonly spread: number;
	readonly lanes: number;
	readonly within: number;
	readonly share: number;
}

export default defineAnswer<Params, WalkInAnswer>({
	name: 'walk-in',
	summary: 'How long people wait, hour by hour, at a desk without appointments, and how many lanes it takes.',
	params,
	run(rollout, asked) {
		const model = new EnrollmentModel(rollout);
		const ready = asked.station === undefined ? undefined : model.stationsById.get(asked.station);
		const faults: Fault[] = [];
		if (asked.station !== undefined && !ready) {
			const ids = rollout.enrollment.stations.map(({ id }) => id);
			faults.push(fault(['station'], asked.station, 'the id of a station', nearestName(asked.station, ids)));
		}
		const open = asked.open ?? ready?.stretches.find(({ date }) => date === asked.date)?.at;
		if (open === undefined) {
			faults.push(fault(['open'], undefined, 'when the desk is open, or a station and a date on which it is'));
		}
		const canDerive = ready !== undefined && asked.date !== undefined;
		if (asked.arrivals === undefined && !canDerive) {
			faults.push(fault(['arrivals'], undefined, `${expectedArrivals}, or a station and a date to reckon them for`));
		}
		const turnover = asked.turnover ?? ready?.station.turnoverMinutes ?? 0;
		const service = serviceOf(rollout, turnover);
		const minutes = asked.minutes ?? service?.minutes;
		if (minutes === undefined || minutes <= 0) {
			faults.push(fault(['minutes'], undefined, 'the minutes, since nobody is to be enrolled'));
		}
		if (faults.length > 0 || open === undefined || minutes === undefined) {
			return Promise.resolve(refused(faults as [Fault, ...Fault[]]));
		}
		const likely =
			asked.arrivals === undefined && ready && asked.date !== undefined
				? likelyArrivals(model, ready, { date: asked.date, open, spread: asked.days === 'all' })
				: null;
		const most = Math.max(0, ...(likely?.arrivals ?? []));
		if (most > mostAnHour) {
			return Promise.resolve(
				refused([fault(['arrivals'], most, `at most ${mostAnHour} an hour; the people to be enrolled are more`)])
			);
		}
		const arrivals = likely?.arrivals ?? arrivalsIn(asked.arrivals ?? '') ?? [];
		const { within, share } = asked;
		const lanes = asked.lanes ?? ready?.station.lanes ?? 1;
		const spread = asked.spread ?? service?.variation ?? 0;
		const terms = { open, arrivals, lanes, minutes, variation: spread, withinMinutes: within, share };
		return Promise.resolve(
			ok({
				...walkInDesk(terms),
				...{ open, arrivals, turnover, minutes, spread, lanes, within, share },
				likely: likely && { people: likely.people, others: likely.others }
			})
		);
	},
	isBad: () => false,
	text
});

/** Numbers of people an hour; undefined when the text is none. */
function arrivalsIn(value: string): number[] | undefined {
	const numbers = value.split(',').map((part) => (/^\s*\d{1,5}(\.\d+)?\s*$/.test(part) ? Number(part) : NaN));
	return numbers.length <= 48 && numbers.every((number) => number <= mostAnHour) ? numbers : undefined;
}

function text(desk: WalkInAnswer): string {
	const columns = [
		'Hour',
		'People an hour',
		'Waiting',
		'Waiting at its end',
		'Wait',
		`Of ${percent(desk.share)} under`,
		'Longer',
		'Lanes busy',
		'Lanes'
	];
	const rows = desk.hours.map((hour) => [
		`${clockText(hour.from)}-${clockText(hour.to)}`,
		String(hour.arrivalsPerHour),
		hour.queue.toFixed(1),
		hour.queueAtEnd.toFixed(1),
		finite(hour.waitMinutes),
		finite(hour.waitAtShare),
		percent(hour.longer),
		percent(hour.use),
		hour.lanesNeeded === null ? 'more than 1000' : String(hour.lanesNeeded)
	]);
	const needed =
		desk.lanesNeeded === null ? 'more than 1000 lanes' : `${counted(desk.lanesNeeded, 'lane')}, the same all day`;
	return [
		`${counted(desk.lanes, 'lane')}, ${desk.minutes.toFixed(1)} minutes a person (spread ${percent(desk.spread)}), ` +
			`${desk.people.toFixed(0)} people: ${percent(desk.longer)} of them wait longer than ${desk.within} minutes.`,
		textTable(
			columns.map((heading) => ({ heading })),
			rows
		),
		`So that ${percent(desk.share)} wait at most ${desk.within} minutes, it takes ${needed}. The last column tells it for an hour by itself.`,
		'Reckoned for people who come by chance and in one line: Erlang C carried through the day, with the usual allowance for station times that are not exponential.'
	].join('\n\n');
}

function finite(minutes: number): string {
	return Number.isFinite(minutes) ? `${minutes.toFixed(1)} min` : 'no end';
}

function percent(share: number): string {
	return `${(100 * share).toFixed(1)} %`;
}
