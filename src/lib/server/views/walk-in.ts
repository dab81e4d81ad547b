import walkIn, { type WalkInAnswer } from '$lib/core/answers/walk-in';
import { clockText } from '$lib/core/calendar/stretch';
import { counted } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { Fault } from '$lib/core/kernel/fault';
import { ask } from '$lib/server/answers';
import type { OpenRollout } from '$lib/server/open-rollouts';

/** The fields of the form, as they stand in the address. */
export const walkInFields = [
	'open',
	'arrivals',
	'lanes',
	'turnover',
	'minutes',
	'spread',
	'within',
	'share',
	'days'
] as const;

/** Fields that are typed in percent. */
const inPercent = new Set(['spread', 'share']);

/** What the walk-in sheet shows for an address: the choice of a desk, the answer or its faults, and what it says in words. */
export async function walkInView(open: OpenRollout, url: URL) {
	const { stations } = open.rollout.enrollment;
	const desks = stations.flatMap((station) =>
		station.open.map(({ date, at }) => ({
			value: `${station.id} ${date} ${at}`,
			label: `${station.name ?? station.id}, ${date} ${at}`,
			station: station.id,
			date,
			at
		}))
	);
	const desk = desks.find(({ value }) => value === url.searchParams.get('desk')) ?? desks[0];
	const typed = Object.fromEntries(walkInFields.map((name) => [name, url.searchParams.get(name)?.trim() ?? '']));
	if (!desk) return { desks, desk: null, typed, faults: [] as readonly Fault[], byField: {}, found: null, words: [] };
	const params: Record<string, unknown> = { station: desk.station, date: desk.date, open: desk.at };
	for (const [name, text] of Object.entries(typed)) {
		if (text === '') continue;
		const number = name === 'open' || name === 'arrivals' || name === 'days' ? text : Number(text);
		params[name] = typeof number === 'number' && inPercent.has(name) ? number / 100 : number;
	}
	const answer = await ask(open, walkIn, params);
	const faults = answer.ok ? [] : answer.faults;
	return {
		desks,
		desk,
		typed,
		faults,
		byField: Object.fromEntries(
			faults.map(({ path, expected }) => [path.replace(/^\$?\.?/, ''), `Expected: ${expected}.`])
		),
		found: answer.ok ? answer.value : null,
		words: answer.ok ? wordsOf(answer.value, open.rollout) : []
	};
}

export type WalkInView = Awaited<ReturnType<typeof walkInView>>;

/** What the figures mean, sentence by sentence: the verdict first, then where the long-run formula stops applying. */
function wordsOf(
	desk: WalkInAnswer,
	{ enrollment }: Rollout
): { state: 'holds' | 'fails' | 'watch' | 'note'; text: string }[] {
	const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
	const isKept = desk.longer <= 1 - desk.share + 1e-12;
	const needed =
		desk.lanesNeeded === null
			? 'No number of lanes up to 1000 keeps it.'
			: `It takes ${counted(desk.lanesNeeded, 'lane')}.`;
	const words: ReturnType<typeof wordsOf> = [
		{
			state: isKept ? 'holds' : 'fails',
			text:
				`With ${counted(desk.lanes, 'lane')}, ${percent(1 - desk.longer)} of ${desk.people.toFixed(0)} people wait at most ` +
				`${desk.within} minutes; ${percent(desk.share)} should. ${needed}`
		}
	];
	const perLane = 60 / desk.minutes;
	for (const { from, to, arrivalsPerHour, steady, queueAtEnd } of desk.hours) {
		if (steady !== null) continue;
		words.push({
			state: 'watch',
			text:
				`${clockText(from)} to ${clockText(to)}: ${arrivalsPerHour} come an hour, and the lanes serve ` +
				`${(desk.lanes * perLane).toFixed(1)}. The formula of the long run has no answer there, since the line would grow ` +
				`without end; followed through the day, ${queueAtEnd.toFixed(1)} are waiting at ${clockText(to)}.`
		});
	}
	const last = desk.hours.at(-1);
	if (last && last.queueAtEnd >= 0.5) {
		words.push({
			state: 'watch',
			text: `When the desk closes, ${last.queueAtEnd.toFixed(1)} people are likely still waiting: stay open for them, or stop the line earlier.`
		});
	}
	if (desk.likely !== null) {
		words.push({
			state: 'note',
			text:
				`Arrivals are reckoned: ${desk.likely.people} of the people still to be enrolled could come on this date, ` +
				`${desk.likely.others} others not. Any moment within their working time is taken as equally likely; a crowd before a shift must be typed.`
		});
	}
	if (enrollment.bookings.length > 0) {
		words.push({
			state: 'note',
			text: 'Nothing here looks at bookings: lanes that serve appointments at the same time are not free for the line.'
		});
	}
	return words;
}
