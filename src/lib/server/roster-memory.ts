import { z } from 'zod';
import { type KeptValue, conflictKey } from '../core/roster/origins';
import type { WrittenMap } from '../core/roster/list-map';
import { pairKey } from '../core/roster/people/same-person';
import { store } from './store/current';

/**
 * What was decided about the lists of a rollout, to hold for the next one: values entered here that stay, pairs who are two
 * people, and how the columns of a list of some shape are taken. Kept as a fact of the installation; erased with the rollout.
 */
export interface RosterMemory {
	readonly kept: readonly KeptValue[];
	readonly apart: readonly (readonly [string, string])[];
	/** The latest last. */
	readonly shapes: readonly RememberedShape[];
}

export interface RememberedShape {
	readonly shape: string;
	readonly map: WrittenMap;
	/** The file for which it was said, when (an instant) and by whom. */
	readonly fileName: string;
	readonly at: string;
	readonly who: string;
}

const mostShapes = 50;
const nothing: RosterMemory = { kept: [], apart: [], shapes: [] };
const memorySchema = z.object({
	kept: z.array(z.custom<KeptValue>()),
	apart: z.array(z.tuple([z.string(), z.string()])),
	shapes: z.array(
		z.object({
			shape: z.string(),
			map: z.record(z.string(), z.unknown()),
			fileName: z.string(),
			at: z.string(),
			who: z.string()
		})
	)
});

/** What is remembered for a rollout. */
export function rosterMemory(rollout: string): RosterMemory {
	const parsed = memorySchema.safeParse(JSON.parse(store().fact(keyOf(rollout)) ?? 'null'));
	return parsed.success ? parsed.data : nothing;
}

/** Keeps decisions; the later of two about one thing counts. Those about people who are gone are forgotten. */
export function rememberDecisions(
	rollout: string,
	{ kept, apart }: Pick<RosterMemory, 'kept' | 'apart'>,
	isHere: (person: string) => boolean
): void {
	const before = rosterMemory(rollout);
	const values = new Map([...before.kept, ...kept].map((one) => [conflictKey(one), one]));
	const pairs = new Map([...before.apart, ...apart].map((pair) => [pairKey(pair), pair]));
	write(rollout, {
		...before,
		kept: [...values.values()].filter(({ person }) => isHere(person)),
		apart: [...pairs.values()].filter((pair) => pair.some(isHere))
	});
}

/** Keeps how the columns of lists of a shape are taken. */
export function rememberShape(rollout: string, shape: RememberedShape): void {
	const before = rosterMemory(rollout);
	const others = before.shapes.filter((one) => one.shape !== shape.shape);
	write(rollout, { ...before, shapes: [...others, shape].slice(-mostShapes) });
}

/** Forgets how the columns of lists of a shape are taken. */
export function forgetShape(rollout: string, shape: string): void {
	const before = rosterMemory(rollout);
	write(rollout, { ...before, shapes: before.shapes.filter((one) => one.shape !== shape) });
}

/** Forgets whatever was decided about people, and where a text about how columns are taken is about them. */
export function forgetPeople(rollout: string, isAbout: (text: string) => boolean): void {
	const before = rosterMemory(rollout);
	const isLeft = (value: unknown) => !isAbout(JSON.stringify(value));
	write(rollout, {
		kept: before.kept.filter(isLeft),
		apart: before.apart.filter(isLeft),
		shapes: before.shapes
			.filter(({ map }) => isLeft(map))
			.map((one) => (isLeft(one) ? one : { ...one, who: '', fileName: '' }))
	});
}

function write(rollout: string, memory: RosterMemory): void {
	store().setFact(keyOf(rollout), JSON.stringify(memory));
}

function keyOf(rollout: string): string {
	return `roster of ${rollout}`;
}
