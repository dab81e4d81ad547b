import { nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { shortfallSentence } from '$lib/core/answers/plan';
import type { Remedy, Shortfall } from '$lib/core/enrollment/shortfalls';

/** How many of a proof's people and pieces are written out; the picture and the figures count all. */
const mostNamed = 30;

/** A proof as a sheet shows it: who, how much is lacking, the lane time that counts, what would help. */
export function shortfallView(shortfall: Shortfall, rollout: Rollout) {
	const { stations } = rollout.enrollment;
	return {
		kind: shortfall.kind,
		// The remedies stand below in a table of their own.
		sentence: shortfallSentence({ ...shortfall, remedies: [] }, rollout),
		people: shortfall.people.slice(0, mostNamed).map((id) => ({ id, name: personName(rollout, id) })),
		more: Math.max(0, shortfall.people.length - mostNamed),
		neededMinutes: shortfall.neededMinutes,
		availableMinutes: shortfall.availableMinutes,
		days: daysOf(shortfall),
		stretches: shortfall.stretches.map(({ station, lane, from, to }) => ({
			name: nameOf(stations, station),
			lane,
			from: from.slice(0, 16).replace('T', ' '),
			to: to.slice(11, 16)
		})),
		remedies: remediesOf(shortfall.remedies)
	};
}

export type ShortfallView = ReturnType<typeof shortfallView>;

/** The cheapest first, each with the price of the dearer ones beside it. */
function remediesOf(remedies: readonly Remedy[]) {
	return remedies
		.map(({ does, minutes, cost }, place) => ({ place, does, minutes, cost }))
		.sort((a, b) => a.cost - b.cost || a.place - b.place);
}

/** The pieces of a proof on each date, as shares of the day: what the small picture draws. */
function daysOf({ stretches }: Shortfall) {
	const byDate = new Map<string, { readonly from: number; readonly share: number }[]>();
	for (const { from, to } of stretches) {
		const date = from.slice(0, 10);
		const start = minuteOf(from);
		const length = (Date.parse(to) - Date.parse(from)) / 60_000;
		const pieces = byDate.get(date) ?? [];
		pieces.push({ from: start / 1440, share: Math.min(length, 1440 - start) / 1440 });
		byDate.set(date, pieces);
	}
	return [...byDate].map(([date, pieces]) => ({ date, pieces })).sort((a, b) => (a.date < b.date ? -1 : 1));
}

function minuteOf(instant: string): number {
	return Number(instant.slice(11, 13)) * 60 + Number(instant.slice(14, 16));
}
