import { z } from 'zod';
import { clockText } from '../calendar/stretch';
import { amount, stretchText, text as textThat, whole } from '../document/fields';
import { counted } from '../document/names';
import { type WalkInDesk, serviceOf, walkInDesk } from '../enrollment/walk-in/walk-in-desk';
import { fault } from '../kernel/fault';
import { ok, refused } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';

const expectedArrivals = 'people who come in each hour, at most 400 each, like 30 or 40,25,10';

const params = z.strictObject({
	open: stretchText.describe('When the desk is open, as 08:00-12:00'),
	arrivals: textThat(expectedArrivals, (value) => arrivalsIn(value) !== undefined).describe(
		'People who come in each hour from the opening on, as 40,25,10; the last number holds for the hours after it'
	),
	lanes: whole(0, 1000).default(1).describe('Lanes of the desk'),
	turnover: whole(0, 1440).default(0).describe('Minutes between two people of a lane'),
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
	run(rollout, { open, arrivals, lanes, turnover, minutes, spread, within, share }) {
		const service = serviceOf(rollout, turnover);
		const mean = minutes ?? service?.minutes;
		if (mean === undefined || mean <= 0) {
			return Promise.resolve(refused([fault(['minutes'], undefined, 'the minutes, since nobody is to be enrolled')]));
		}
		const reckoned = { minutes: mean, spread: spread ?? service?.variation ?? 0, lanes, within, share };
		const desk = walkInDesk({
			open,
			arrivals: arrivalsIn(arrivals) ?? [],
			lanes,
			minutes: mean,
			variation: reckoned.spread,
			withinMinutes: within,
			share
		});
		return Promise.resolve(ok({ ...desk, ...reckoned }));
	},
	isBad: () => false,
	text
});

/** Numbers of people an hour; undefined when the text is none. */
function arrivalsIn(value: string): number[] | undefined {
	const numbers = value.split(',').map((part) => (/^\s*\d{1,5}(\.\d+)?\s*$/.test(part) ? Number(part) : NaN));
	return numbers.length <= 48 && numbers.every((number) => number <= 400) ? numbers : undefined;
}

function text(desk: WalkInAnswer): string {
	const columns = ['Hour', 'People an hour', 'Waiting', 'Waiting at its end', 'Wait', 'Longer', 'Lanes busy', 'Lanes'];
	const rows = desk.hours.map((hour) => [
		`${clockText(hour.from)}-${clockText(hour.to)}`,
		String(hour.arrivalsPerHour),
		hour.queue.toFixed(1),
		hour.queueAtEnd.toFixed(1),
		Number.isFinite(hour.waitMinutes) ? `${hour.waitMinutes.toFixed(1)} min` : 'no end',
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

function percent(share: number): string {
	return `${(100 * share).toFixed(1)} %`;
}
