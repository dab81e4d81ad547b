import { nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { shortfallSentence } from '$lib/core/answers/plan';
import { type Takes, priceOf } from '$lib/core/enrollment/remedies/price';
import type { Remedy, Shortfall, Together } from '$lib/core/enrollment/shortfalls';

/** How many of a proof's people and pieces are written out; the picture and the figures count all. */
const mostNamed = 30;

/** A proof as a sheet shows it: who, how much is lacking, the lane time that counts, what would help. */
export function shortfallView(shortfall: Shortfall, rollout: Rollout) {
	const { stations } = rollout.enrollment;
	return {
		kind: shortfall.kind,
		sentence: shortfallSentence(shortfall, rollout),
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
		remedies: remediesOf(shortfall.remedies, rollout),
		noRemedy: shortfall.remedies.length > 0 ? null : (shortfall.noRemedy ?? null)
	};
}

export type ShortfallView = ReturnType<typeof shortfallView>;

/** Proofs one below the other; people whom no start fits and whom the same would help stand together. */
export function shortfallViews(shortfalls: readonly Shortfall[], rollout: Rollout) {
	const groups = new Map<string, { place: number; shortfalls: Shortfall[] }>();
	shortfalls.forEach((shortfall, place) => {
		const does = shortfall.remedies.map((remedy) => remedy.does);
		const isAlike = shortfall.kind === 'no-common-time' && does.length > 0;
		const key = isAlike ? JSON.stringify(does) : String(place);
		const group = groups.get(key) ?? { place, shortfalls: [] };
		group.shortfalls.push(shortfall);
		groups.set(key, group);
	});
	return [...groups.values()].flatMap(({ place, shortfalls: [first, ...others] }) => {
		if (!first) return [];
		const people = [first, ...others].flatMap((one) => one.people);
		return [{ place, ...shortfallView({ ...first, people }, rollout) }];
	});
}

/** What would help everybody together, as the sheet shows it. */
export function togetherView({ people, remedy }: Together, rollout: Rollout) {
	return remediesOf([remedy], rollout).map((shown) => ({ people: people.length, ...shown }))[0];
}

/** The cheapest first, priced by the cost table as it is now, which may be another than when they were found. */
function remediesOf(remedies: readonly Remedy[], { enrollment: { costs } }: Rollout) {
	return remedies
		.map(({ does, takes, cost }, place) => ({
			place,
			changes: does.split('; '),
			takes: takesText(takes),
			cost: isKept(takes) ? priceOf(takes, costs) : cost
		}))
		.sort((a, b) => a.cost - b.cost || a.place - b.place);
}

/** Proposals of earlier versions have prices only. */
function isKept(takes: Takes | undefined): takes is Takes {
	return takes !== undefined;
}

/** What a price is made of; nothing for what was found before that was kept. */
function takesText(takes: Takes): string {
	if (!isKept(takes)) return '';
	const parts = [
		[takes.stationMinutes, 'min of an open lane'],
		[takes.installerDays, takes.installerDays === 1 ? "installer's day" : "installer's days"],
		[Math.ceil(takes.awayMinutes), 'min away from the line'],
		[takes.movedBookings, takes.movedBookings === 1 ? 'booking that may move' : 'bookings that may move']
	] as const;
	return parts.flatMap(([amount, words]) => (amount > 0 ? [`${amount} ${words}`] : [])).join(', ');
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
