import { linear, rounded } from './scale';

/** An hour of a desk: minutes of the day, the mean wait, the wait that a share does not exceed, the line at its end. */
export interface WaitHour {
	readonly from: number;
	readonly to: number;
	readonly waitMinutes: number;
	readonly waitAtShare: number;
	readonly queue: number;
}

/** Bars of the mean wait with a step for the wait of the share, and bars of the line below, in the units of the drawing. */
export interface WaitSteps {
	readonly hours: readonly {
		readonly from: number;
		readonly x: number;
		readonly width: number;
		readonly mean: number;
		readonly atShare: number;
		readonly queue: number;
		/** True where the wait goes beyond the picture. */
		readonly isCut: boolean;
	}[];
	/** Levels of minutes and of people: value and place. */
	readonly minutes: readonly { readonly value: number; readonly y: number }[];
	readonly people: readonly { readonly value: number; readonly y: number }[];
	/** Where the wait lies that should not be exceeded. */
	readonly target: number;
}

/** Lays waits out over `height` and the line over `lower` below it; endless waits reach the top. Lengths grow from their base line. */
export function waitStepsOf(
	hours: readonly WaitHour[],
	within: number,
	width: number,
	height: number,
	lower: number
): WaitSteps {
	const finite = hours.flatMap(({ waitMinutes, waitAtShare }) => [waitMinutes, waitAtShare]).filter(Number.isFinite);
	const most = roundUp(Math.max(within * 1.25, 1, ...finite));
	const mostPeople = roundUp(Math.max(1, ...hours.map(({ queue }) => queue).filter(Number.isFinite)));
	const x = linear([hours[0]?.from ?? 0, Math.max((hours[0]?.from ?? 0) + 1, hours.at(-1)?.to ?? 60)], [0, width]);
	const y = linear([0, most], [0, height]);
	const down = linear([0, mostPeople], [0, lower]);
	const cut = (value: number) => Math.min(Number.isFinite(value) ? value : most, most);
	return {
		hours: hours.map(({ from, to, waitMinutes, waitAtShare, queue }) => ({
			from,
			x: rounded(x(from)),
			width: rounded(x(to) - x(from)),
			mean: rounded(y(cut(waitMinutes))),
			atShare: rounded(y(cut(waitAtShare))),
			queue: rounded(down(Math.min(queue, mostPeople))),
			isCut: !Number.isFinite(waitAtShare)
		})),
		minutes: [0, 0.5, 1].map((share) => ({ value: share * most, y: rounded(height - y(share * most)) })),
		people: [0, 1].map((share) => ({ value: share * mostPeople, y: rounded(down(share * mostPeople)) })),
		target: rounded(height - y(within))
	};
}

/** The next of 1, 2, 4, 5 or 10 times a power of ten that is not below. */
function roundUp(value: number): number {
	const power = 10 ** Math.floor(Math.log10(value));
	return power * ([1, 2, 4, 5, 10].find((step) => step * power >= value - 1e-9) ?? 10);
}
