import type { AccessModel } from '$lib/core/access/model';
import { remembered } from '$lib/core/kernel/remembered';
import type { GridColumn } from '$lib/components/access/grid';
import type { GridWindow, Stretch, WindowCell, WindowRow } from '$lib/components/access/grid-window';
import { CellBook, type Crowd } from './cell-book';
import type { GridQuery } from './grid-query';
import { type ColumnKind, type RowOfPeople, columnsOf, filteredPeople, rowsOfPeople } from './who-grid';

/** A row with its crowd in the week. */
interface ReadyRow extends RowOfPeople {
	readonly crowd: Crowd;
}

type PlacedColumn = GridColumn & { readonly places: readonly number[] };

/** All rows and columns of a grid as an address asks for it; cells are worked out window by window. */
export class GridView {
	readonly model: AccessModel;
	readonly rows: readonly ReadyRow[];
	readonly columns: readonly PlacedColumn[];
	readonly #query: GridQuery;
	readonly #book: CellBook;
	readonly #before: ComparedBook | null;
	/** Places of the columns in the book. */
	readonly #places: readonly number[];

	constructor(model: AccessModel, query: GridQuery, before: AccessModel | null = null) {
		this.model = model;
		this.#query = query;
		const columns = columnsLeft(model, query);
		this.#book = new CellBook(model, columns);
		this.#before = before && new ComparedBook(this.#book, before, columns, query.columnKind);
		const rows = rowsOfPeople(model.rollout, filteredPeople(model, query.filter), query.kind).map((row) => ({
			...row,
			crowd: this.#book.crowdOf(row.people)
		}));
		const left = this.#leftByCells(rows, columns);
		this.rows = this.#sorted(left.rows);
		this.#places = left.places;
		this.columns = left.places.map((place) => columns[place] as PlacedColumn);
	}

	/** A part of the grid; places outside of it are left out. */
	window(revision: string, rows: Stretch, columns: Stretch): GridWindow {
		const places = this.#places.slice(columns.from, columns.to);
		const pictures = new Set<number>();
		const shown = this.rows.slice(rows.from, rows.to);
		const cells = shown.map((row) =>
			places.map((place): WindowCell | null => {
				const cell = this.#cell(row, place);
				if (!this.#isWanted(row, cell)) return null;
				pictures.add(cell.picture);
				return cell;
			})
		);
		return {
			revision,
			top: rows.from,
			left: columns.from,
			rows: shown.map((row): WindowRow => {
				const { key, name, note, people, crowd } = row;
				return { key, name, note, listed: people.length, people: crowd.people };
			}),
			columns: this.columns.slice(columns.from, columns.to).map(({ id, name, doors }) => ({ id, name, doors })),
			cells,
			pictures: Object.fromEntries([...pictures].map((number) => [number, this.#book.picture(number)]))
		};
	}

	#cell(row: ReadyRow, place: number): WindowCell {
		const { picture, can } = this.#book.cell(row.crowd, place);
		const isChanged = this.#before?.isChanged(row.people, place, picture, can) === true;
		return isChanged ? { picture, can, isChanged } : { picture, can };
	}

	#isWanted({ crowd }: ReadyRow, { can, isChanged }: WindowCell): boolean {
		const { cells } = this.#query;
		if (cells === 'with') return can > 0;
		if (cells === 'without') return can < crowd.people;
		return cells === 'all' || isChanged === true;
	}

	/** Rows and columns that have a cell of the kind asked for. */
	#leftByCells(rows: readonly ReadyRow[], columns: readonly PlacedColumn[]) {
		const all = columns.map((_, place) => place);
		if (this.#query.cells === 'all') return { rows, places: all };
		const wantedByCrowd = new Map<string, readonly number[]>();
		const left: ReadyRow[] = [];
		const used = new Set<number>();
		for (const row of rows) {
			// Rows of the same classes can differ in what was before; otherwise they are alike.
			const key = this.#before === null ? row.crowd.key : row.key;
			const wanted = remembered(wantedByCrowd, key, () =>
				all.filter((place) => this.#isWanted(row, this.#cell(row, place)))
			);
			if (wanted.length === 0) continue;
			left.push(row);
			for (const place of wanted) used.add(place);
		}
		return { rows: left, places: all.filter((place) => used.has(place)) };
	}

	#sorted(rows: readonly ReadyRow[]): readonly ReadyRow[] {
		const { sort } = this.#query;
		if (sort === null) return rows;
		const doorsByCrowd = new Map<string, number>();
		const names = new Intl.Collator('en', { numeric: true });
		const compare = {
			name: (a: ReadyRow, b: ReadyRow) => names.compare(a.name, b.name),
			people: (a: ReadyRow, b: ReadyRow) => a.crowd.people - b.crowd.people,
			doors: (a: ReadyRow, b: ReadyRow) => doorsOf(a) - doorsOf(b)
		}[sort.key];
		const doorsOf = ({ crowd }: ReadyRow) => remembered(doorsByCrowd, crowd.key, () => this.#book.doorsOf(crowd));
		return rows.toSorted((a, b) => (sort.isDescending ? compare(b, a) : compare(a, b)));
	}
}

/** The same cells in another state of the rollout; people, doors and groups are the same by their ids. */
class ComparedBook {
	readonly #book: CellBook;
	readonly #before: CellBook;
	readonly #crowds = new Map<string, Crowd>();

	constructor(book: CellBook, before: AccessModel, columns: readonly PlacedColumn[], kind: ColumnKind) {
		this.#book = book;
		const placesById = new Map(columnsOf(before, kind).map(({ id, places }) => [id, places]));
		this.#before = new CellBook(
			before,
			columns.map(({ id }) => ({ places: placesById.get(id) ?? [] }))
		);
	}

	isChanged(people: RowOfPeople['people'], column: number, picture: number, can: number): boolean {
		const then = remembered(this.#crowds, people[0]?.id ?? '', () => this.#before.crowdOf(people));
		const was = this.#before.cell(then, column);
		return was.can !== can || this.#before.textOf(was.picture) !== this.#book.textOf(picture);
	}
}

function columnsLeft(model: AccessModel, { columnKind, group, area, door }: GridQuery): PlacedColumn[] {
	const { rollout, building } = model;
	const ids = group === null ? null : rollout.doorGroups.find(({ id }) => id === group)?.doors;
	const ofGroup = ids && new Set(ids.map((id) => building.doorPlaceById.get(id)));
	const areaPlace = area === null ? undefined : building.areaPlaceById.get(area);
	const wanted = door?.trim().toLowerCase() ?? '';
	return columnsOf(model, columnKind).filter(
		({ id, name, places }) =>
			(!ofGroup || (columnKind === 'groups' ? id === group : places.some((place) => ofGroup.has(place)))) &&
			(areaPlace === undefined || places.some((place) => building.doorsByArea[areaPlace]?.includes(place))) &&
			(wanted === '' || `${id}\n${name}`.toLowerCase().includes(wanted))
	);
}
