import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { Placement } from '$lib/core/enrollment/explain-placement';

/** Why somebody is where they are, fact by fact: a word and what it is. */
export interface PlacementFact {
	readonly word: string;
	readonly text: string;
}

/** What a booking takes and what bounds it, in words; times are those of the wall at the site. */
export function placementFacts(placement: Placement, rollout: Rollout): PlacementFact[] {
	const { booking, stretch, walkMinutes, away, free, enrollBy } = placement;
	const date = booking.start.slice(0, 10);
	const person = rollout.people.find(({ id }) => id === booking.person);
	const pattern = person?.shiftPattern ?? null;
	const station = nameOf(rollout.enrollment.stations, booking.station);
	const limits = rollout.enrollment.awayLimits.flatMap(({ department, maxAway }) =>
		maxAway !== null && department === person?.department ? [maxAway] : []
	);
	return [
		{
			word: 'At',
			text: `${station}, lane ${booking.lane}, ${date} ${booking.start.slice(11)} for ${booking.minutes} minutes`
		},
		{ word: 'Open', text: stretch ? `${stretch.at}, on ${stretch.date}` : 'not at this time' },
		{
			word: 'Walk',
			text: walkMinutes === 0 ? 'none' : `${walkMinutes} ${walkMinutes === 1 ? 'minute' : 'minutes'} each way`
		},
		{ word: 'Away', text: between(away, date) },
		{
			word: pattern === null ? 'There' : 'On shift',
			text: free
				? `${between(free, date)}${pattern === null ? '' : `, ${nameOf(rollout.shiftPatterns, pattern)}`}`
				: 'not for the whole time away'
		},
		...(limits.length === 0 ? [] : [{ word: 'Away limit', text: `${Math.min(...limits)} of ${person?.department}` }]),
		{ word: 'Enroll by', text: enrollBy ?? 'no date' }
	];
}

/** `07:52–08:12`, with the date where it is another. */
function between({ from, to }: { readonly from: string; readonly to: string }, date: string): string {
	const clock = (text: string): string =>
		text.startsWith(date) ? text.slice(11, 16) : `${text.slice(0, 10)} ${text.slice(11, 16)}`;
	return `${clock(from)} to ${clock(to)}`;
}
