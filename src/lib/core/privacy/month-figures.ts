import { type LocalDate, dateOf, epochDayOf, localDate, plusDays, plusMonths } from '../calendar/local-date';
import type { Rollout } from '../document/schema';
import { erasedOn, erasureAt, templatePlaceName } from './erasure-orders';
import { retentionOn } from './retention';

/** What one month came to, as known on the day that is asked about. */
export interface MonthFigures {
	/** `2027-06` */
	readonly month: string;
	/** The day asked about: what came later in the month is not counted. */
	readonly until: LocalDate;
	/** Templates whose last place was emptied in the month. */
	readonly erased: number;
	/** Templates whose erase-by date lies in the month and that were not erased before it. */
	readonly fellDue: number;
	/** Templates past their erase-by date at the end, and under no hold. */
	readonly overdue: number;
	/** Work orders opened in the month. */
	readonly opened: number;
	/** Days from the opening of the order to the last place, of those erased in the month that had an order. */
	readonly medianDays: number | null;
	readonly places: readonly PlaceFigures[];
}

export interface PlaceFigures {
	readonly place: string;
	readonly name: string;
	/** Templates erased there in the month. */
	readonly erased: number;
	/** Templates due or overdue at the end that are still there. */
	readonly left: number;
	/** Days from the opening of the order to the erasure there. */
	readonly medianDays: number | null;
}

/** The figures of the month in which a day lies; linear in templates and erasures. */
export function monthFigures(rollout: Rollout, on: LocalDate): MonthFigures {
	const first = localDate(`${on.slice(0, 7)}-01`);
	const isIn = (date: LocalDate | null) => date !== null && date >= first && date <= on;
	const { templates, erasureOrders } = rollout.privacy;
	const openedOn = new Map(erasureOrders.map((order) => [`${order.enrolledOn} ${order.person}`, order.openedOn]));
	const places = new Map<string, { erased: number; left: number; days: number[] }>();
	const at = (place: string) => {
		const known = places.get(place) ?? { erased: 0, left: 0, days: [] };
		places.set(place, known);
		return known;
	};
	let [erased, fellDue, overdue] = [0, 0, 0];
	const days: number[] = [];
	const lastOfMonth = dateOf(plusDays(epochDayOf(plusMonths(first, 1)), -1));
	for (const [index, line] of retentionOn(rollout, on).templates.entries()) {
		const template = templates[index];
		if (template === undefined) continue;
		const opened = openedOn.get(`${template.enrolledOn} ${template.person}`);
		const gone = erasedOn(template, on);
		if (gone !== null && isIn(gone)) {
			erased++;
			if (opened !== undefined && opened <= gone) days.push(epochDayOf(gone) - epochDayOf(opened));
		}
		const { eraseBy, state } = line;
		if (eraseBy !== null && eraseBy >= first && eraseBy <= lastOfMonth && (gone === null || gone >= first)) fellDue++;
		if (state === 'overdue') overdue++;
		for (const place of new Set(template.storedOn)) {
			const erasure = erasureAt(template, place, on);
			if (erasure === undefined) at(place).left += state === 'overdue' || state === 'due' ? 1 : 0;
			else if (isIn(erasure.on)) {
				at(place).erased++;
				if (opened !== undefined && opened <= erasure.on)
					at(place).days.push(epochDayOf(erasure.on) - epochDayOf(opened));
			}
		}
	}
	return {
		month: on.slice(0, 7),
		until: on,
		erased,
		fellDue,
		overdue,
		opened: erasureOrders.filter((order) => isIn(order.openedOn)).length,
		medianDays: medianOf(days),
		places: [...places]
			.map(([place, figures]) => ({
				place,
				name: templatePlaceName(rollout, place),
				erased: figures.erased,
				left: figures.left,
				medianDays: medianOf(figures.days)
			}))
			.sort((a, b) => b.left - a.left || (a.name < b.name ? -1 : 1))
	};
}

/** The middle one, of an even number the mean of the two in the middle; null of none. */
function medianOf(numbers: readonly number[]): number | null {
	const sorted = numbers.toSorted((a, b) => a - b);
	const middle = Math.floor(sorted.length / 2);
	const [low, high] = [sorted[sorted.length % 2 === 0 ? middle - 1 : middle], sorted[middle]];
	return low === undefined || high === undefined ? null : (low + high) / 2;
}
