import { type ColumnField, isDateField } from '../fields';
import type { RosterColumn } from '../roster-answer';
import type { KnownField, KnownValues } from '../values/known-values';
import { type ColumnContent, surveyColumn } from './column-content';
import { recognizeHeader } from './recognize-header';
import type { Concept } from './concept';

/** What the columns of a roster hold. */
export interface RecognizedColumns {
	readonly columns: readonly RosterColumn[];
	/** The header says that the family name stands first: `Nachname, Vorname`. */
	readonly isFamilyFirst: boolean;
}

/** A meaning that a column may have. */
interface Meaning {
	readonly column: number;
	readonly field: ColumnField | null;
	readonly sure: number;
	readonly isFamilyFirst: boolean;
}

/** Below this a meaning is not taken. */
const leastSure = 0.4;

/**
 * Says what each column holds, by its header and by its cells, each field once (given and family names may be spread
 * over several columns). The surest meaning is taken first; among equals the column further left. A column whose header
 * says nothing can only be told by its cells where these leave no doubt: addresses, ids, names, values that the document
 * knows. A date is never taken for the first or last day of employment without a header that says so.
 */
export function recognizeColumns(
	headers: readonly string[],
	cellsOf: (column: number) => readonly string[],
	known: Readonly<Record<KnownField, KnownValues>> | undefined,
	given: ReadonlyMap<number, ColumnField | null>
): RecognizedColumns {
	const contents = headers.map((_, column) => surveyColumn(cellsOf(column), known));
	const concepts = headers.map((header) => recognizeHeader(header));
	const surely = (concept: Concept): boolean => concepts.some((list) => list[0]?.concept === concept);
	const nameParts = {
		hasGiven: surely('givenName') || [...given.values()].includes('givenName'),
		hasFamily: surely('familyName') || [...given.values()].includes('familyName')
	};
	const meanings = headers.flatMap((_, column): Meaning[] => {
		const content = contents[column];
		if (given.has(column) || content === undefined) return [];
		const byHeader = (concepts[column] ?? []).flatMap(({ concept, sure }): Meaning[] => {
			const field = fieldOfConcept(concept, nameParts);
			const fit = field === null ? 1 : fitOf(field, content, sure);
			return [{ column, field, sure: sure * fit, isFamilyFirst: concept === 'familyFirst' }];
		});
		// What the cells say counts only where the header does not know better.
		return byHeader.some(({ sure }) => sure >= 0.55) ? byHeader : [...byHeader, ...byContent(column, content)];
	});
	return assigned(headers, meanings, given);
}

function fieldOfConcept(
	concept: Concept,
	{ hasGiven, hasFamily }: { readonly hasGiven: boolean; readonly hasFamily: boolean }
): ColumnField | null {
	if (concept === 'other' || concept === 'goods') return null;
	if (concept === 'familyFirst') return 'name';
	// `Name` beside a given name is the family name; beside both it is the whole once more.
	if (concept === 'nameOrFamily') return hasGiven && !hasFamily ? 'familyName' : 'name';
	if (concept === 'nameOrGiven') return hasFamily && !hasGiven ? 'givenName' : 'name';
	return concept;
}

/** How well the cells fit a field, as a factor: a header is believed unless the cells say plainly otherwise. */
function fitOf(field: ColumnField, content: ColumnContent, sureByHeader: number): number {
	if (content.filled === 0) return 0.9;
	if (isDateField(field)) return 0.5 + 0.5 * content.dates;
	if (field === 'email') return 0.5 + 0.5 * content.addresses;
	if (field === 'id') {
		if (content.isCounter) return 0.9;
		const isCode = Math.max(content.codes, 1 - content.fullNames);
		return 0.3 + 0.4 * isCode + 0.3 * content.distinct;
	}
	if (field === 'name')
		return 0.5 + 0.5 * Math.max(content.fullNames, content.wordings * 0.9, 1 - content.codes - content.dates);
	// `Title` can be that of a job or of a person: Dr., Mrs.
	if (field === 'job' && sureByHeader < 0.9 && content.honorifics > 0.5) return 0.2;
	// `Équipe` can be a team or a shift.
	if (field === 'department' && sureByHeader < 0.9 && content.shifts >= 0.8) return 0.5;
	if (field === 'workAreas' || field === 'department')
		return Math.max(content.known[field] ?? 0, 1 - 0.5 * content.dates);
	return 1 - 0.5 * Math.max(content.dates, content.addresses);
}

function byContent(column: number, content: ColumnContent): Meaning[] {
	if (content.filled < 2) return [];
	const found: [ColumnField, number][] = [];
	if (content.addresses >= 0.8) found.push(['email', 0.75 * content.addresses]);
	else if (content.codes >= 0.95 && content.distinct >= 0.98 && content.dates < 0.2 && !content.isCounter) {
		found.push(['id', 0.6]);
	} else if (content.fullNames >= 0.8 && content.distinct >= 0.7) found.push(['name', 0.6 * content.fullNames]);
	for (const field of ['shiftPattern', 'wave', 'department', 'workAreas', 'captureClass'] as const) {
		const share = content.known[field] ?? 0;
		if (share >= 0.8) found.push([field, 0.7 * share]);
	}
	return found.map(([field, sure]) => ({ column, field, sure, isFamilyFirst: false }));
}

function assigned(
	headers: readonly string[],
	meanings: readonly Meaning[],
	given: ReadonlyMap<number, ColumnField | null>
): RecognizedColumns {
	const byColumn = new Map<number, Meaning>();
	const taken = new Set<ColumnField>();
	for (const [column, field] of given) {
		byColumn.set(column, { column, field, sure: 1, isFamilyFirst: false });
		if (field !== null) taken.add(field);
	}
	const settle = (from: readonly Meaning[]): void => {
		for (const meaning of [...from].sort((a, b) => b.sure - a.sure || a.column - b.column)) {
			const { column, field, sure } = meaning;
			if (sure < leastSure || byColumn.has(column)) continue;
			if (field !== null && taken.has(field) && !(field === 'familyName' && isSecondOfTwo(headers, column, byColumn)))
				continue;
			// A name in full needs no parts, and parts need no name in full.
			if (field === 'name' && (taken.has('givenName') || taken.has('familyName'))) continue;
			if (isNamePart(field) && taken.has('name')) continue;
			byColumn.set(column, meaning);
			if (field !== null) taken.add(field);
		}
	};
	settle(withNameDecided(meanings));
	const columns = headers.map((header, column): RosterColumn => {
		const meaning = byColumn.get(column);
		return { header, field: meaning?.field ?? null, sure: Math.round((meaning?.sure ?? 0) * 100) / 100 };
	});
	return {
		columns,
		isFamilyFirst: [...byColumn.values()].some(({ field, isFamilyFirst }) => field === 'name' && isFamilyFirst)
	};
}

const secondName = /(?:^|[^\p{L}])(?:segundo|materno|second|2)/iu;

/** Two family names stand side by side in Spanish: `Primer apellido`, `Segundo apellido`. */
function isSecondOfTwo(headers: readonly string[], column: number, byColumn: ReadonlyMap<number, Meaning>): boolean {
	const [first, ...more] = [...byColumn.values()].filter(({ field }) => field === 'familyName');
	if (first === undefined || more.length > 0) return false;
	return secondName.test(headers[column] ?? '') !== secondName.test(headers[first.column] ?? '');
}

function isNamePart(field: ColumnField | null): boolean {
	return field === 'givenName' || field === 'familyName';
}

/**
 * Where a list has the name both in full and in parts, one of them is used: in full where a header surely says so and
 * no part is as sure, else in parts. Parts of which only one is there are no name.
 */
function withNameDecided(meanings: readonly Meaning[]): readonly Meaning[] {
	const best = (wanted: ColumnField): number =>
		Math.max(0, ...meanings.filter(({ field }) => field === wanted).map(({ sure }) => sure));
	const parts = Math.min(best('givenName'), best('familyName'));
	if (best('name') === 0 || parts >= Math.max(best('name'), leastSure)) {
		return parts >= leastSure ? meanings.filter(({ field }) => field !== 'name') : meanings;
	}
	return best('name') >= leastSure ? meanings.filter(({ field }) => !isNamePart(field)) : meanings;
}
