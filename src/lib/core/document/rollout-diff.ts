import { isSameJson } from './canonical';
import { type CollectionName, collections } from './collections';
import { collectionNames, stepsOf, valueAt } from './lists';
import type { Rollout } from './schema';
import { fieldOf } from './walk';

/** An entry of a list, or a part, that differs between two rollouts. */
export interface EntryChange {
	/** The list, or `site`, `horizon` and other parts by their path. */
	readonly collection: string;
	/** What people call one entry: `schedule`. */
	readonly kind: string;
	/** What tells the entry apart in its list, see `entryKey`; empty for a part. */
	readonly key: string;
	readonly name: string;
	readonly change: 'added' | 'removed' | 'changed';
	/** The fields that differ, in the order of the document; of a changed entry only. */
	readonly fields: readonly { readonly field: string; readonly before: unknown; readonly after: unknown }[];
}

/** Fields that tell entries without an id apart, for people. */
const keyFields: Partial<Record<CollectionName, readonly string[]>> = {
	holidays: ['date'],
	absences: ['person', 'from', 'until'],
	walks: ['between'],
	awayLimits: ['department'],
	bookings: ['person'],
	visits: ['person', 'on'],
	consents: ['person', 'notice', 'on'],
	templates: ['person', 'enrolledOn'],
	holds: ['person', 'from']
};

const parts = [
	['site'],
	['horizon'],
	['holidays', 'coveredUntil'],
	['enrollment', 'gridMinutes'],
	['enrollment', 'assumptions'],
	['privacy', 'regimes'],
	['privacy', 'siteRules'],
	['privacy', 'office'],
	['privacy', 'erasureRules']
] as const;

/** What tells an entry apart in its list: its id, or what stands for it (`2027-12-25` of a holiday). */
export function entryKey(collection: CollectionName, entry: unknown): string {
	if (collections[collection].key === 'id') return String(fieldOf(entry, 'id'));
	return (keyFields[collection] ?? []).map((field) => textOf(fieldOf(entry, field))).join(' ');
}

function textOf(value: unknown): string {
	if (value === undefined || value === null) return '';
	return typeof value === 'string' ? value : JSON.stringify(value);
}

/**
 * What was added, removed and changed between two rollouts, in the order of the document. Defaults are filled in, so that
 * what is left out and what is written as its default are the same. Of entries with one key the first goes with the first.
 */
export function diffRollouts(before: Rollout, after: Rollout): readonly EntryChange[] {
	return [
		...parts.flatMap((steps) => partChange(before, after, steps)),
		...collectionNames.flatMap((name) => listChanges(before, after, name))
	];
}

function partChange(before: Rollout, after: Rollout, steps: readonly string[]): EntryChange[] {
	const [old, now] = [valueAt(before, steps), valueAt(after, steps)];
	if (isSameJson(old ?? null, now ?? null)) return [];
	const fields = isObject(old) ? fieldChanges(old, now) : [{ field: steps.at(-1) ?? '', before: old, after: now }];
	return [
		{
			collection: steps.join('.'),
			kind: 'part',
			key: '',
			name: partNames[steps.join('.')] ?? steps.join('.'),
			change: 'changed',
			fields
		}
	];
}

const partNames: Readonly<Record<string, string>> = {
	site: 'The site',
	horizon: 'The horizon',
	'holidays.coveredUntil': 'How far the holiday list goes',
	'enrollment.gridMinutes': 'Grid of bookings',
	'enrollment.assumptions': 'Assumptions of the forecast',
	'privacy.regimes': 'Rule packs that apply',
	'privacy.siteRules': 'Own limits of retention',
	'privacy.office': 'Privacy office',
	'privacy.erasureRules': 'Own rules of erasure'
};

function listChanges(before: Rollout, after: Rollout, name: CollectionName): EntryChange[] {
	const [old, now] = [before, after].map((rollout) => byKey(name, valueAt(rollout, stepsOf(name)))) as [
		ReadonlyMap<string, unknown>,
		ReadonlyMap<string, unknown>
	];
	const about = (entry: unknown) => ({
		collection: name,
		kind: collections[name].one,
		key: entryKey(name, entry),
		name: nameIn(name, entry, after, before)
	});
	const changes: EntryChange[] = [];
	for (const [key, entry] of now) {
		const was = old.get(key);
		if (was === undefined) changes.push({ ...about(entry), change: 'added', fields: [] });
		else if (was !== entry && !isSameJson(was, entry)) {
			changes.push({ ...about(entry), change: 'changed', fields: fieldChanges(was, entry) });
		}
	}
	for (const [key, entry] of old) {
		if (!now.has(key)) changes.push({ ...about(entry), change: 'removed', fields: [] });
	}
	return changes;
}

function byKey(name: CollectionName, entries: unknown): ReadonlyMap<string, unknown> {
	const map = new Map<string, unknown>();
	for (const entry of Array.isArray(entries) ? (entries as unknown[]) : []) {
		const stem = entryKey(name, entry);
		let key = stem;
		for (let n = 2; map.has(key); n++) key = `${stem}\n${n}`;
		map.set(key, entry);
	}
	return map;
}

/** Fields that differ; of objects the fields in them, as `week.mon`. */
function fieldChanges(before: unknown, after: unknown, under = ''): EntryChange['fields'] {
	const names = new Set([before, after].flatMap((value) => Object.keys(Object(value) as object)));
	return [...names].flatMap((field) => {
		const [old, now] = [fieldOf(before, field) ?? null, fieldOf(after, field) ?? null];
		if (isSameJson(old, now)) return [];
		if (isObject(old) && isObject(now)) return fieldChanges(old, now, `${under}${field}.`);
		return [{ field: under + field, before: old, after: now }];
	});
}

function isObject(value: unknown): boolean {
	return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What people call it: its own name, that of its person, else what tells it apart. */
function nameIn(collection: CollectionName, entry: unknown, ...rollouts: readonly Rollout[]): string {
	const own = fieldOf(entry, 'name');
	if (typeof own === 'string') return own;
	const person = fieldOf(entry, 'person');
	const named = rollouts.flatMap(({ people }) => people.find(({ id }) => id === person)?.name ?? []).at(0);
	return named ?? entryKey(collection, entry);
}
