import type { z } from 'zod';
import { type Fault, type PathStep, fault } from '../kernel/fault';
import { type Result, ok, refused } from '../kernel/result';
import type { CollectionName } from './collections';
import { faultsOfIssues } from './faults-of-issues';
import { type KnownOutside, mostFaults } from './known-outside';
import { findLinkFaults } from './link-faults';
import { collectionNames, entriesOf, entrySchemas, stepsOf, valueAt, withValue } from './lists';
import { findOrderFaults } from './order-faults';
import { type Rollout, type RolloutDocument, rolloutSchema } from './schema';

/** A document that was read: as it was written, and with every default filled in. */
export interface ReadDocument {
	readonly document: RolloutDocument;
	readonly rollout: Rollout;
}

/**
 * Reads a value as a document. Where it was made from one already read, an entry that is the same object as before is
 * taken over with its defaults: a change of one entry among many thousands is read in a fraction of the time. What
 * depends on other entries (ids, limits) is checked for all of them.
 *
 * Invariant: what was read before makes no difference to the answer. Cost: linear in the number of entries with a small
 * constant, plus reading what changed. Our own.
 */
export function readChanged(before: ReadDocument | null, value: unknown, known: KnownOutside): Result<ReadDocument> {
	const document = value as RolloutDocument;
	const inLists: Fault[] = [];
	const lists = collectionNames.map((name) => readList(name, before, document, inLists));
	const shell = lists.reduce<RolloutDocument>(
		(rest, { name, entries }) => (entries === undefined ? rest : withValue(rest, stepsOf(name), [])),
		document
	);
	const parsed = rolloutSchema.safeParse(shell);
	const faults = [
		...(parsed.success ? [] : faultsOfIssues(shell, parsed.error.issues)),
		...findForbiddenKeys(shell),
		...inLists,
		...findLinkFaults(document, known, before?.document),
		...findOrderFaults(document, before?.document)
	];
	if (inLists.length >= mostFaults) {
		faults.unshift(fault([], document, `a document with fewer faults; its lists were read up to fault ${mostFaults}`));
	}
	if (!parsed.success || faults.length > 0) return refused(withoutRepeats(faults));
	const rollout = lists.reduce<unknown>(
		(filled, { name, entries }) =>
			entries === undefined ? filled : withValue(filled as RolloutDocument, stepsOf(name), entries),
		parsed.data
	);
	return ok({ document, rollout: rollout as Rollout });
}

interface ReadList {
	readonly name: CollectionName;
	/** Undefined where no list stands: the rest of the document tells what is there instead. */
	readonly entries: readonly unknown[] | undefined;
}

function readList(
	name: CollectionName,
	before: ReadDocument | null,
	document: RolloutDocument,
	faults: Fault[]
): ReadList {
	const steps = stepsOf(name);
	const raw = valueAt(document, steps);
	if (!Array.isArray(raw)) return { name, entries: undefined };
	const readBefore = (before ? valueAt(before.rollout, steps) : []) as readonly unknown[];
	if (before && raw === valueAt(before.document, steps)) return { name, entries: readBefore };
	const rawBefore: readonly unknown[] = before ? entriesOf(before.document, name) : [];
	const readByRaw = new Map(rawBefore.map((entry, index) => [entry, readBefore[index]]));
	const isNew = readByRaw.size === 0;
	const schema: z.ZodType = entrySchemas[name];
	const entries = raw.map((entry: unknown, index) => {
		const read = !isNew && typeof entry === 'object' && entry !== null ? readByRaw.get(entry) : undefined;
		if (read !== undefined || faults.length >= mostFaults) return read;
		const parsed = schema.safeParse(entry);
		if (!parsed.success) {
			for (const one of faultsOfIssues(document, parsed.error.issues, [...steps, index])) faults.push(one);
		}
		if (hasForbiddenKey(entry, steps.length + 1)) {
			for (const one of findForbiddenKeys(entry, [...steps, index])) faults.push(one);
		}
		return parsed.data;
	});
	return { name, entries };
}

/** Nothing in a document lies deeper; what does is refused as an unknown key. */
const mostLevels = 12;

/** Whether `findForbiddenKeys` would find any: asked of every entry, so that paths are made only where there is one. */
function hasForbiddenKey(value: unknown, level: number): boolean {
	if (typeof value !== 'object' || value === null || level > mostLevels) return false;
	for (const key in value) {
		if (!Object.hasOwn(value, key)) continue;
		if (key === '__proto__' || hasForbiddenKey((value as Record<string, unknown>)[key], level + 1)) return true;
	}
	return false;
}

/** A key that the text of a document may not hold: it would be lost on the next reading. */
function findForbiddenKeys(value: unknown, steps: readonly PathStep[] = []): Fault[] {
	if (typeof value !== 'object' || value === null || steps.length > mostLevels) return [];
	return Object.keys(value).flatMap((key): Fault[] => {
		const at = [...steps, Array.isArray(value) ? Number(key) : key];
		if (key === '__proto__') return [fault(at, key, 'another key: this name is not allowed')];
		return findForbiddenKeys((value as Record<string, unknown>)[key], at);
	});
}

/** Faults, each told once: two rules may find the same. */
function withoutRepeats(faults: readonly Fault[]): Fault[] {
	const seen = new Set<string>();
	return faults.filter((one) => {
		const key = `${one.path}\n${one.expected}`;
		if (seen.has(key)) return false;
		seen.add(key);
		return true;
	});
}
