import type { AccessClass, AccessModel } from '$lib/core/access/model';
import { type SpanSet, clip, difference, intersection, noSpans, union } from '$lib/core/calendar/spans';
import { remembered } from '$lib/core/kernel/remembered';
import type { Person } from '$lib/core/document/schema';
import type { CellPicture } from '$lib/components/access/grid-window';
import { barsOf, spansWords } from './week-of';

/**
 * The cells of the grid of people by doors, worked out so that no cell is worked out twice.
 *
 * The idea: in one week a person's access to a door is one of few *shapes*. People of one class have the same shapes; what a
 * column holds of a class is a set of shapes; a cell is the union of such sets over the classes of its row. Shapes, sets and
 * pictures are numbered and kept, so that a window costs a look-up per cell and class. Our own.
 */
export class CellBook {
	readonly model: AccessModel;
	readonly #columns: readonly { readonly places: readonly number[] }[];
	readonly #placeByClass: ReadonlyMap<AccessClass, number>;
	/** Crowds of a single person, by class. */
	readonly #crowdsOfOne = new Map<number | undefined, Crowd>();
	readonly #employed = new Map<number, boolean>();
	readonly #shapes: SpanSet[] = [noSpans];
	readonly #shapeByText = new Map<string, number>([['', 0]]);
	readonly #shapesByClass = new Map<number, Int32Array>();
	readonly #sets: (readonly number[])[] = [];
	readonly #setByText = new Map<string, number>();
	readonly #setsByClass = new Map<number, Int32Array>();
	readonly #pictures: CellPicture[] = [];
	readonly #pictureBySets = new Map<string, number>();
	readonly #pictureByShapes = new Map<string, number>();

	/** @param model of one week */
	constructor(model: AccessModel, columns: readonly { readonly places: readonly number[] }[]) {
		this.model = model;
		this.#columns = columns;
		this.#placeByClass = new Map(model.classes.map((one, place) => [one, place]));
	}

	/** How many of some people each class holds, by the class's place; people not employed in the week are left out. */
	crowdOf(people: readonly Person[]): Crowd {
		const [only] = people;
		if (people.length !== 1 || only === undefined) return this.#crowdOfMany(people);
		const one = this.model.findClass(only.id);
		return remembered(this.#crowdsOfOne, one && this.#placeByClass.get(one), () => this.#crowdOfMany(people));
	}

	#crowdOfMany(people: readonly Person[]): Crowd {
		const counts = new Map<number, number>();
		for (const { id } of people) {
			const one = this.model.findClass(id);
			const place = one && this.#placeByClass.get(one);
			if (place !== undefined && this.#isEmployed(place)) counts.set(place, (counts.get(place) ?? 0) + 1);
		}
		const classes = [...counts.keys()].sort((a, b) => a - b);
		const employed = classes.reduce((sum, one) => sum + (counts.get(one) ?? 0), 0);
		return { key: classes.join(), classes, counts, people: employed };
	}

	/** The number of the picture of a crowd and a column, and how many of the crowd may open a door of it at some time. */
	cell(crowd: Crowd, column: number): { picture: number; can: number } {
		let can = 0;
		const sets: number[] = [];
		for (const one of crowd.classes) {
			const set = this.#setsOf(one)[column] as number;
			if (!sets.includes(set)) sets.push(set);
			if (this.#opens(set)) can += crowd.counts.get(one) ?? 0;
		}
		const picture = remembered(this.#pictureBySets, sets.sort((a, b) => a - b).join(), () =>
			this.#pictureOf([...new Set(sets.flatMap((set) => this.#sets[set] ?? []))].sort((a, b) => a - b))
		);
		return { picture, can };
	}

	/** The picture of a number. */
	picture(number: number): CellPicture {
		return this.#pictures[number] as CellPicture;
	}

	/** What tells pictures of two books of the same week apart: equal texts are equal pictures. */
	textOf(number: number): string {
		return JSON.stringify(this.picture(number));
	}

	/** How many doors somebody of a crowd may open at some time of the week. */
	doorsOf(crowd: Crowd): number {
		const opened = new Set<number>();
		for (const one of crowd.classes) {
			this.#shapesOf(one).forEach((shape, door) => {
				if (shape !== 0) opened.add(door);
			});
		}
		return opened.size;
	}

	#isEmployed(place: number): boolean {
		const { from, to } = this.model.range;
		return remembered(
			this.#employed,
			place,
			() => clip((this.model.classes[place] as AccessClass).employed, from, to).length > 0
		);
	}

	#opens(set: number): boolean {
		return this.#sets[set]?.some((shape) => shape !== 0) === true;
	}

	/** The shapes of a class, by door. */
	#shapesOf(place: number): Int32Array {
		return remembered(this.#shapesByClass, place, () => {
			const { model } = this;
			const shapes = new Int32Array(model.building.doors.length);
			for (const { doors, spans } of model.doorSetsOf(model.classes[place] as AccessClass)) {
				const shape = this.#shapeOf(clip(spans, model.range.from, model.range.to));
				for (const door of doors) shapes[door] = shape;
			}
			return shapes;
		});
	}

	/** The sets of shapes of a class, by column. */
	#setsOf(place: number): Int32Array {
		return remembered(this.#setsByClass, place, () => {
			const shapes = this.#shapesOf(place);
			return Int32Array.from(this.#columns, ({ places }) =>
				this.#setOf([...new Set(places.map((door) => shapes[door] as number))].sort((a, b) => a - b))
			);
		});
	}

	#shapeOf(spans: SpanSet): number {
		const text = spans.map(({ from, to }) => `${from}-${to}`).join();
		return remembered(this.#shapeByText, text, () => this.#shapes.push(spans) - 1);
	}

	#setOf(shapes: readonly number[]): number {
		return remembered(this.#setByText, shapes.join(), () => this.#sets.push(shapes) - 1);
	}

	#pictureOf(shapes: readonly number[]): number {
		return remembered(this.#pictureByShapes, shapes.join(), () => {
			const { all, some } = allAndSome(shapes.map((shape) => this.#shapes[shape] as SpanSet));
			const { model } = this;
			const picture = { all: barsOf(all, model), some: barsOf(some, model), words: cellWords(model, all, some) };
			return this.#pictures.push(picture) - 1;
		});
	}
}

/** People by their classes. */
export interface Crowd {
	/** Equal for crowds of the same classes. */
	readonly key: string;
	readonly classes: readonly number[];
	readonly counts: ReadonlyMap<number, number>;
	readonly people: number;
}

/** What is in all of some sets, and what is in some of them only. */
export function allAndSome(sets: readonly SpanSet[]): { all: SpanSet; some: SpanSet } {
	const [first = noSpans, ...others] = sets;
	const all = others.reduce((both, set) => intersection(both, set), first);
	return { all, some: difference(union(...sets), all) };
}

/** What a cell shows, in words. */
export function cellWords(model: AccessModel, all: SpanSet, some: SpanSet): string {
	if (all.length === 0 && some.length === 0) return 'not at all';
	if (some.length === 0) return spansWords(all, model);
	if (all.length === 0) return `some only: ${spansWords(some, model)}`;
	return `${spansWords(all, model)}; some also: ${spansWords(some, model)}`;
}
