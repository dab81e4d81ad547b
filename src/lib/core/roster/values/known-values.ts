import type { Rollout } from '../../document/schema';
import { nearestName } from '../../kernel/nearest';

/** The values of one field that the document knows. */
export interface KnownValues {
	/** What people call one of them, in messages. */
	readonly one: string;
	/** A value that is not known is kept as it is written; else it must be left out, as nothing may name what is not there. */
	readonly keepsUnknown: boolean;
	/** False where the document has none at all, and free words cannot be unknown. */
	readonly isAsked: boolean;
	/** The value that text stands for: by id, else by name, capitals and spaces aside. Undefined where it is not known. */
	find(text: string): string | undefined;
	/** The known value nearest to text. */
	nearest(text: string): string | undefined;
}

export type KnownField = 'department' | 'shiftPattern' | 'wave' | 'language' | 'workAreas' | 'captureClass';

/** What a document knows of departments, shift patterns, waves, languages, areas and capture classes. */
export function knownValuesOf(rollout: Rollout): Readonly<Record<KnownField, KnownValues>> {
	const { people, assignments, enrollment, privacy } = rollout;
	const departments = [
		...people.map((person) => person.department),
		...assignments.flatMap(({ who }) => who.departments),
		...enrollment.awayLimits.map((limit) => limit.department)
	];
	const languages = [...privacy.notices.map((notice) => notice.language), ...people.map((person) => person.language)];
	return {
		department: freeWords('department', departments),
		language: languageTags(languages),
		shiftPattern: entries('shift pattern', rollout.shiftPatterns),
		wave: entries('wave', enrollment.waves),
		workAreas: entries('area', rollout.areas),
		captureClass: entries('capture class', enrollment.captureClasses)
	};
}

function folded(text: string): string {
	return text.normalize('NFC').toLowerCase().replace(/\s+/g, ' ').trim();
}

function freeWords(one: string, values: readonly (string | null)[]): KnownValues {
	const known = new Set(values.filter((value): value is string => value !== null && value !== ''));
	return lookUp(
		one,
		true,
		[...known].map((value) => [value, value])
	);
}

function entries(one: string, list: readonly { readonly id: string; readonly name?: string | null }[]): KnownValues {
	const ids = list.map(({ id }): [string, string] => [id, id]);
	const names = list.flatMap(({ id, name }): [string, string][] => (name ? [[name, id]] : []));
	return lookUp(one, false, [...ids, ...names]);
}

/** Look-up in pairs of what may be written and what it stands for; the earlier wins where two are written alike. */
function lookUp(one: string, keepsUnknown: boolean, pairs: readonly (readonly [string, string])[]): KnownValues {
	const exact = new Map([...pairs].reverse());
	const loose = new Map([...pairs].reverse().map(([written, value]) => [folded(written), value]));
	const nearestByText = new Map<string, string | undefined>();
	return {
		one,
		keepsUnknown,
		isAsked: !keepsUnknown || pairs.length > 0,
		find: (text) => exact.get(text) ?? loose.get(folded(text)),
		nearest(text) {
			if (!nearestByText.has(text)) {
				const written = nearestName(text, exact.keys());
				nearestByText.set(text, written === undefined ? undefined : exact.get(written));
			}
			return nearestByText.get(text);
		}
	};
}

const namesIn = ['en', 'de', 'fr', 'es', 'pl'];

/**
 * Languages are known by their tag, by the language alone (`de-AT` is German where only `de` is known), and by their
 * name in English, German, French, Spanish, Polish or themselves.
 * @source BCP 47 (RFC 5646); names: Unicode CLDR, through Intl.DisplayNames
 */
function languageTags(values: readonly (string | null)[]): KnownValues {
	const tags = [...new Set(values.filter((value): value is string => value !== null && value !== ''))];
	const pairs = tags.flatMap((tag) => [[tag, tag] as const, ...namesOf(tag).map((name) => [name, tag] as const)]);
	const byName = lookUp('language', true, pairs);
	return {
		...byName,
		find: (text) => byName.find(text) ?? byName.find(/^([a-z]{2,3})[-_]/i.exec(text)?.[1] ?? text)
	};
}

function namesOf(tag: string): string[] {
	if (!/^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$/i.test(tag)) return [];
	try {
		return [...namesIn, tag].flatMap((language) => {
			const name = new Intl.DisplayNames([language], { type: 'language', fallback: 'none' }).of(tag);
			return name === undefined ? [] : [name];
		});
	} catch {
		// A well-formed tag that is none: it has no names, and is known as it is written.
		return [];
	}
}
