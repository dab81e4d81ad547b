import { canonicalJson } from '../document/canonical';
import type { CollectionName } from '../document/collections';
import { type EntryOf, entriesOf, stepsOf } from '../document/lists';
import type { RolloutDocument } from '../document/schema';
import { type Fault, fault } from '../kernel/fault';

/**
 * What cannot be true of a decision, a notice or a request that is being entered: dated after today, a withdrawal of what was
 * never given, two notices of one version. Only entries that a change brings or alters are looked at, since a document from
 * elsewhere may hold any of it, and is read as it is. `today`: null where no clock is at hand; dates are then not judged.
 */
export function findRecordFaults(before: RolloutDocument, after: RolloutDocument, today: string | null): Fault[] {
	return [
		...consentFaults(before, after, today),
		...noticeFaults(before, after, today),
		...requestFaults(before, after, today)
	];
}

function consentFaults(before: RolloutDocument, after: RolloutDocument, today: string | null): Fault[] {
	const fresh = freshEntries(before, after, 'consents');
	if (fresh.length === 0) return [];
	const all = entriesOf(after, 'consents');
	const publishedOn = new Map(entriesOf(after, 'notices').map((one) => [one.id, one.publishedOn ?? null]));
	return fresh.flatMap(({ entry, at }) => {
		const faults = afterToday(entry.on, [...at, 'on'], today, 'a decision cannot be dated ahead');
		if (entry.decision === 'withdrawn' && !all.some((one) => isGivenBefore(one, entry))) {
			const expected = `given or declined: ${entry.person} has given no consent on or before ${entry.on} that could be withdrawn`;
			faults.push(fault([...at, 'decision'], entry.decision, expected));
		}
		const published = publishedOn.get(entry.notice) ?? null;
		if (entry.decision === 'given' && published !== null && entry.on < published) {
			const expected = `a date on or after ${published}, when notice ${entry.notice} was published`;
			faults.push(fault([...at, 'on'], entry.on, expected));
		}
		return faults;
	});
}

function isGivenBefore(one: EntryOf<'consents'>, entry: EntryOf<'consents'>): boolean {
	return one.person === entry.person && one.decision === 'given' && one.on <= entry.on;
}

function noticeFaults(before: RolloutDocument, after: RolloutDocument, today: string | null): Fault[] {
	const all = entriesOf(after, 'notices');
	return freshEntries(before, after, 'notices').flatMap(({ entry, at }) => {
		const why = 'leave it empty until the notice is published';
		const faults = afterToday(entry.publishedOn ?? null, [...at, 'publishedOn'], today, why);
		const [version, language] = [entry.version ?? null, entry.language ?? null];
		const twin = all.find(
			(one) => one !== entry && version !== null && one.version === version && (one.language ?? null) === language
		);
		if (twin) {
			const inLanguage = language === null ? '' : ` in ${language}`;
			const expected = `a version that no other notice${inLanguage} has; ${twin.id} has this one`;
			faults.push(fault([...at, 'version'], version, expected));
		}
		if (entry.replaces === entry.id)
			faults.push(fault([...at, 'replaces'], entry.replaces, 'another notice than itself'));
		return faults;
	});
}

const requestDates = ['receivedOn', 'identityCheckedOn', 'extendedOn', 'answeredOn'] as const;

function requestFaults(before: RolloutDocument, after: RolloutDocument, today: string | null): Fault[] {
	return freshEntries(before, after, 'requests').flatMap(({ entry, at }) => {
		const faults = requestDates.flatMap((key) =>
			afterToday(entry[key] ?? null, [...at, key], today, 'it is entered once it has happened')
		);
		const isEmpty = (text: string | null | undefined) => (text ?? '').trim() === '';
		if ((entry.extendedOn ?? null) !== null && isEmpty(entry.extensionReason)) {
			const expected = 'why the answer takes longer: the person is told the reasons';
			faults.push(fault([...at, 'extensionReason'], entry.extensionReason ?? null, expected));
		}
		if ((entry.answeredOn ?? null) !== null && isEmpty(entry.answer)) {
			faults.push(fault([...at, 'answer'], entry.answer ?? null, 'what was answered and done'));
		}
		return faults;
	});
}

function afterToday(
	value: string | null,
	at: readonly (string | number)[],
	today: string | null,
	why: string
): Fault[] {
	if (value === null || today === null || value <= today) return [];
	return [fault(at, value, `a date not after today, ${today}: ${why}`)];
}

interface Fresh<Name extends CollectionName> {
	readonly entry: EntryOf<Name>;
	readonly at: readonly (string | number)[];
}

/** The entries of a list that stand there in no form before, those left out that only follow a name that was changed. */
function freshEntries<Name extends CollectionName>(
	before: RolloutDocument,
	after: RolloutDocument,
	name: Name
): Fresh<Name>[] {
	const [old, now] = [entriesOf(before, name), entriesOf(after, name)];
	if (old === now) return [];
	const objects = new Set<unknown>(old);
	const others = now.flatMap((entry, place) => (objects.has(entry) ? [] : [{ entry, place }]));
	if (others.length === 0) return [];
	const texts = new Set(old.map((one) => canonicalJson(one)));
	// Lists have names of their own: a notice may bear the id of a person.
	const [people, notices] = [idsOf(before, 'people'), idsOf(before, 'notices')];
	const own = new Set(old.flatMap((one) => ('id' in one ? [one.id] : [])));
	const named = new Map([
		['id', own],
		['person', people],
		['notice', notices],
		['replaces', notices]
	]);
	return others.flatMap(({ entry, place }) =>
		texts.has(canonicalJson(entry)) || followsName(old[place], entry, named)
			? []
			: [{ entry, at: [...stepsOf(name), place] }]
	);
}

function idsOf(document: RolloutDocument, name: 'people' | 'notices'): ReadonlySet<string> {
	return new Set(entriesOf(document, name).map(({ id }) => id));
}

/** True when an entry differs from the one before it only by names that nothing of their kind bore before; `named`: by key. */
function followsName(old: object | undefined, now: object, named: ReadonlyMap<string, ReadonlySet<string>>): boolean {
	if (old === undefined) return false;
	const [was, is] = [old, now].map((one) => new Map(Object.entries(one) as [string, unknown][]));
	if (!was || !is) return false;
	return [...new Set([...was.keys(), ...is.keys()])].every((key) => {
		const value = is.get(key);
		if (canonicalJson(was.get(key) ?? null) === canonicalJson(value ?? null)) return true;
		return typeof value === 'string' && named.get(key)?.has(value) === false;
	});
}
