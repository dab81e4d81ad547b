import type { AccessClass, AccessModel } from '$lib/core/access/model';
import { type SpanSet, clip } from '$lib/core/calendar/spans';
import { nameOf } from '$lib/core/document/names';
import type { Person, Rollout } from '$lib/core/document/schema';
import type { GridColumn } from '$lib/components/access/grid';
import { remembered } from '$lib/core/kernel/remembered';
import { allAndSome } from './cell-book';

export { cellWords } from './cell-book';

export const rowKinds = ['department', 'job', 'wave', 'person'] as const;
export type RowKind = (typeof rowKinds)[number];
export const columnKinds = ['groups', 'doors'] as const;
export type ColumnKind = (typeof columnKinds)[number];

/** Whom the grid shows: by words of theirs, an assignment that matches them, or text found in what is said of them. */
export interface GridFilter {
	readonly department?: string | null;
	readonly job?: string | null;
	readonly wave?: string | null;
	readonly assignment?: string | null;
	readonly find?: string | null;
}

/** People of one row of the grid. */
export interface RowOfPeople {
	readonly key: string;
	readonly name: string;
	readonly note: string;
	readonly people: readonly Person[];
}

/** The people that a filter leaves. */
export function filteredPeople(model: AccessModel, filter: GridFilter): Person[] {
	const wanted = (filter.find ?? '').trim().toLowerCase();
	const place = model.rollout.assignments.findIndex(({ id }) => id === filter.assignment);
	const isLeft = (word: string | null, asked: string | null | undefined) =>
		asked === null || asked === undefined || (word ?? '') === asked;
	return model.rollout.people.filter(
		(person) =>
			isLeft(person.department, filter.department) &&
			isLeft(person.job, filter.job) &&
			isLeft(person.wave, filter.wave) &&
			(place < 0 || model.findClass(person.id)?.assignments.includes(place) === true) &&
			(wanted === '' || saidOf(person).toLowerCase().includes(wanted))
	);
}

function saidOf({ id, name, department, job }: Person): string {
	return [id, name, department, job].join('\n');
}

/** People in rows, in the order in which they first stand in the document; those without a word of the kind last. */
export function rowsOfPeople(rollout: Rollout, people: readonly Person[], kind: RowKind): RowOfPeople[] {
	if (kind === 'person') {
		return people.map((person) => ({
			key: person.id,
			name: person.name ?? person.id,
			note: [person.id, person.department].filter((part) => part !== null).join(' · '),
			people: [person]
		}));
	}
	const byKey = new Map<string, Person[]>();
	for (const person of people) {
		remembered(byKey, person[kind] ?? '', () => []).push(person);
	}
	return [...byKey]
		.sort(([a], [b]) => Number(a === '') - Number(b === ''))
		.map(([key, ofRow]) => ({
			key,
			name: key === '' ? `no ${kind}` : kind === 'wave' ? nameOf(rollout.enrollment.waves, key) : key,
			note: ofRow.length === 1 ? '1 person' : `${ofRow.length} people`,
			people: ofRow
		}));
}

/** Columns with the places of their doors. */
export function columnsOf(
	model: AccessModel,
	kind: ColumnKind
): (GridColumn & { readonly places: readonly number[] })[] {
	const { doors, doorGroups } = model.rollout;
	if (kind === 'doors')
		return doors.map(({ id, name }, place) => ({ id, name: name ?? id, doors: 1, places: [place] }));
	return doorGroups.map(({ id, name, doors: ids }) => {
		const places = [...new Set(ids)].flatMap((door) => model.building.doorPlaceById.get(door) ?? []);
		return { id, name: name ?? id, doors: places.length, places };
	});
}

/** The classes of people who are employed on some day of the model's range. */
export function classesOf(model: AccessModel, people: readonly Person[]): AccessClass[] {
	const classes = new Set(people.flatMap(({ id }) => model.findClass(id) ?? []));
	return [...classes].filter((one) => clip(one.employed, model.range.from, model.range.to).length > 0);
}

/** When all of some classes may open all of some doors, and when only some of them some. */
export function cellSpans(
	model: AccessModel,
	classes: readonly AccessClass[],
	doors: readonly number[]
): { all: SpanSet; some: SpanSet } {
	const { from, to } = model.range;
	return allAndSome(classes.flatMap((one) => doors.map((door) => clip(model.doorSpansOf(one, door), from, to))));
}
