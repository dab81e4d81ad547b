import { AccessModel } from '$lib/core/access/model';
import type { Rollout } from '$lib/core/document/schema';
import { type GridQuery } from './grid-query';
import { GridView } from './grid-view';

/**
 * Grids and the models of their weeks, kept for the windows that are asked for next. They belong to one state of a rollout:
 * a changed rollout is another object, and what belonged to the old one goes with it.
 */
interface Kept {
	readonly models: Map<string, AccessModel>;
	readonly views: Map<string, GridView>;
}

const mostModels = 4;
const mostViews = 8;
const keptByRollout = new WeakMap<Rollout, Kept>();

/** The access model of a week of a rollout, with or without its holidays. */
export function weekModelOf(
	rollout: Rollout,
	{ week, isOrdinary }: Pick<GridQuery, 'week' | 'isOrdinary'>
): AccessModel {
	const { models } = keptFor(rollout);
	return kept(models, `${week.from} ${isOrdinary}`, mostModels, () => {
		const shown = isOrdinary ? { ...rollout, holidays: { ...rollout.holidays, days: [] } } : rollout;
		return new AccessModel(shown, week);
	});
}

/** The grid that an address asks for; `before` is the state against which changed cells are told. */
export function gridViewOf(rollout: Rollout, query: GridQuery, before: Rollout | null = null): GridView {
	const { views } = keptFor(rollout);
	const key = JSON.stringify([query, before === null ? null : numberOf(before)]);
	return kept(views, key, mostViews, () => {
		const then = before && weekModelOf(before, query);
		return new GridView(weekModelOf(rollout, query), query, then);
	});
}

/** States compared with, told apart by a number. */
const numbers = new WeakMap<Rollout, number>();
let next = 0;

function numberOf(rollout: Rollout): number {
	const known = numbers.get(rollout) ?? next++;
	numbers.set(rollout, known);
	return known;
}

function keptFor(rollout: Rollout): Kept {
	const known = keptByRollout.get(rollout) ?? { models: new Map(), views: new Map() };
	keptByRollout.set(rollout, known);
	return known;
}

/** A value from a bounded map; the one used longest ago makes room. */
function kept<Value>(values: Map<string, Value>, key: string, most: number, make: () => Value): Value {
	const value = values.get(key) ?? make();
	values.delete(key);
	values.set(key, value);
	for (const oldest of values.keys()) {
		if (values.size <= most) break;
		values.delete(oldest);
	}
	return value;
}
