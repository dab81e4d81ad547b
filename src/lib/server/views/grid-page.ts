import type { LocalDate } from '$lib/core/calendar/local-date';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { type GridWindow, type Place, blockColumns, blockRows } from '$lib/components/access/grid-window';
import type { Reason } from '$lib/components/access/grid';
import { gridParameters, gridQueryOf } from './grid-query';
import { gridViewOf } from './grid-views';
import { reasonOf } from './who-reason';

interface Choice {
	readonly value: string;
	readonly label: string;
}

/** The grid as its page shows it: one window, where it lies, and what can be chosen. */
export function gridPageOf(
	{ rollout, revision }: { readonly rollout: Rollout; readonly revision: string },
	parameters: URLSearchParams,
	today: LocalDate,
	before: Rollout | null = null
) {
	const query = gridQueryOf(parameters, rollout, today);
	const view = gridViewOf(rollout, query, before);
	const page = pageOf(parameters.get('page'), view.rows.length, blockRows);
	const across = pageOf(parameters.get('across'), view.columns.length, blockColumns);
	const first: GridWindow = view.window(
		revision,
		{ from: (page - 1) * blockRows, to: page * blockRows },
		{ from: (across - 1) * blockColumns, to: across * blockColumns }
	);
	const cell: Place = {
		row: view.rows.findIndex(({ key }) => key === parameters.get('row')),
		column: view.columns.findIndex(({ id }) => id === parameters.get('column'))
	};
	const [row, column] = [view.rows[cell.row], view.columns[cell.column]];
	const reason: Reason | null = row && column ? reasonOf(view.model, row, column) : null;
	const { kind, columnKind, week, isOrdinary } = query;
	return {
		grid: {
			kind,
			columnKind,
			week: isOrdinary ? { ...week, holidays: [] } : week,
			isOrdinary,
			cells: query.cells,
			size: { rows: view.rows.length, columns: view.columns.length },
			page,
			across,
			perPage: blockRows,
			perAcross: blockColumns,
			first,
			/** The part of the address that says which grid this is. */
			query: new URLSearchParams(
				gridParameters.flatMap((name) => {
					const value = name === 'week' ? week.from : parameters.get(name);
					return value === null ? [] : [[name, value]];
				})
			).toString()
		},
		reason,
		cell: reason === null ? { row: -1, column: -1 } : cell,
		choices: choicesOf(rollout)
	};
}

function pageOf(asked: string | null, count: number, perPage: number): number {
	return Math.min(Math.max(1, Math.floor(Number(asked ?? 1)) || 1), Math.max(1, Math.ceil(count / perPage)));
}

/** What the filters of the grid offer. */
function choicesOf({
	people,
	enrollment,
	doorGroups,
	areas
}: Rollout): Record<'department' | 'job' | 'wave' | 'group' | 'area', readonly Choice[]> {
	const words = (key: 'department' | 'job') =>
		[...new Set(people.flatMap((person) => person[key] ?? []))]
			.sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
			.map((value) => ({ value, label: value }));
	const named = (list: readonly { readonly id: string; readonly name: string | null }[]) =>
		list.map(({ id }) => ({ value: id, label: nameOf(list, id) }));
	return {
		department: words('department'),
		job: words('job'),
		wave: named(enrollment.waves),
		group: named(doorGroups),
		area: named(areas)
	};
}
