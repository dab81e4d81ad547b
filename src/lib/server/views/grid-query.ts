import type { LocalDate } from '$lib/core/calendar/local-date';
import type { Rollout } from '$lib/core/document/schema';
import { type RealWeek, weekOf } from './week-of';
import { type ColumnKind, type GridFilter, type RowKind, columnKinds, rowKinds } from './who-grid';

/** Which cells are shown: all; those in which somebody may, or may not, open anything; those that differ from before. */
export const cellKinds = ['all', 'with', 'without', 'changed'] as const;
export type CellKind = (typeof cellKinds)[number];
/** By what rows are sorted; a hyphen before it turns the order round. Without one: the order of the document. */
export const sortKeys = ['name', 'people', 'doors'] as const;
export type SortKey = (typeof sortKeys)[number];

/** What the grid shows, as its address says it. */
export interface GridQuery {
	readonly kind: RowKind;
	readonly columnKind: ColumnKind;
	readonly week: RealWeek;
	/** The week as if none of its dates were a holiday. */
	readonly isOrdinary: boolean;
	readonly filter: GridFilter;
	/** Columns: only doors of a door group, only doors of an area, only with a text in the name. */
	readonly group: string | null;
	readonly area: string | null;
	readonly door: string | null;
	readonly cells: CellKind;
	readonly sort: { readonly key: SortKey; readonly isDescending: boolean } | null;
}

/** The parameters of the address that say what the grid shows; others belong to what stands beside it. */
export const gridParameters = [
	...['rows', 'columns', 'week', 'days', 'department', 'job', 'wave', 'lacks', 'assignment', 'find'],
	...['group', 'area', 'doorfind', 'cells', 'sort']
] as const;

/** Reads an address. What it does not know counts as not said, so that an old link still opens. */
export function gridQueryOf(parameters: URLSearchParams, rollout: Rollout, today: LocalDate): GridQuery {
	const at = (name: string) => parameters.get(name);
	const said = (name: string) => at(name) || null;
	const sort = at('sort') ?? '';
	const key = sortKeys.find((one) => one === sort.replace('-', ''));
	return {
		kind: rowKinds.find((one) => one === at('rows')) ?? 'department',
		columnKind: columnKinds.find((one) => one === at('columns')) ?? 'groups',
		week: weekOf(rollout, at('week'), today),
		isOrdinary: at('days') === 'ordinary',
		filter: {
			...Object.fromEntries(
				(['department', 'job', 'wave'] as const).map((word) => [word, at('lacks') === word ? '' : said(word)])
			),
			assignment: said('assignment'),
			find: said('find')
		},
		group: said('group'),
		area: said('area'),
		door: said('doorfind'),
		cells: cellKinds.find((one) => one === at('cells')) ?? 'all',
		sort: key === undefined ? null : { key, isDescending: sort.startsWith('-') }
	};
}
