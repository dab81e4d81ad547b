import type { KnownField, KnownValues } from '../values/known-values';
import { cellText, isEmptyCell, saysNothing } from '../values/cell-text';
import { looksLikeDate } from '../values/read-date';

/** What the cells of a column look like: shares from 0 to 1 of those that have something in them. */
export interface ColumnContent {
	readonly filled: number;
	readonly dates: number;
	readonly addresses: number;
	/** Short, without spaces, with a digit. */
	readonly codes: number;
	/** Two words or more, or `Last, First`, without digits. */
	readonly fullNames: number;
	/** Words without digits. */
	readonly wordings: number;
	readonly honorifics: number;
	/** Words for shifts, in the five languages, or times of day. */
	readonly shifts: number;
	/** Different cells. */
	readonly distinct: number;
	/** 1, 2, 3 and so on: the numbers of rows. */
	readonly isCounter: boolean;
	/** Cells that the document knows, by field. */
	readonly known: Readonly<Partial<Record<KnownField, number>>>;
}

const honorific =
	/^(?:mr|mrs|ms|miss|mx|dr|prof|herr|frau|hr|fr|m|mme|mlle|sr|sra|srta|d|dña|pan|pani|ing|dipl-ing|mgr)\.?$/i;
const shift =
	/^(?:(?:early|late|night|day|morning|afternoon|evening|fr[üu]h|sp[äa]t|nacht|tag|mittel|matin|soir|nuit|jour|apr[èe]s-midi|journ[ée]e|ma[ñn]ana|tarde|noche|d[íi]a|rano|ranna|nocna|nocny|dzienna|dzie[ńn]|popo[łl]udniowa|popo[łl]udnie|wieczorna|[123](?:st|nd|rd)?|i{1,3})(?:[- ]?(?:shift|schicht|dienst|zmiana|turno))?|\d{1,2}(?:[:.h]\d{2})?\s*[-–]\s*\d{1,2}(?:[:.h]\d{2})?h?(?: uhr)?)$/iu;
const fullName = /^[\p{L}\p{M}][\p{L}\p{M}'’.-]*(?:,? [\p{L}\p{M}'’.-]+)+$/u;
const wording = /^\p{L}[\p{L}\p{M}\s'’.,&/()-]*$/u;
const code = /^(?=.*\d)[\p{L}\d][\p{L}\d._/-]{0,19}$/u;

/** Looks at the cells of one column, as many as are handed in. */
export function surveyColumn(
	raw: readonly string[],
	known: Readonly<Record<KnownField, KnownValues>> | undefined
): ColumnContent {
	const cells = raw.map(cellText).filter((cell) => !isEmptyCell(cell));
	const share = (fits: (cell: string) => boolean): number =>
		cells.length === 0 ? 0 : cells.filter(fits).length / cells.length;
	const shares: Partial<Record<KnownField, number>> = {};
	if (known) {
		for (const [field, values] of Object.entries(known) as [KnownField, KnownValues][]) {
			shares[field] = share((cell) => values.find(cell) !== undefined);
		}
	}
	return {
		filled: cells.length,
		dates: share((cell) => looksLikeDate(cell) || saysNothing(cell)),
		addresses: share((cell) => /^[^\s@]+@[^\s@]+$/.test(cell)),
		codes: share((cell) => code.test(cell)),
		fullNames: share((cell) => fullName.test(cell)),
		wordings: share((cell) => wording.test(cell)),
		honorifics: share((cell) => honorific.test(cell)),
		shifts: share((cell) => shift.test(cell)),
		distinct: cells.length === 0 ? 0 : new Set(cells).size / cells.length,
		isCounter: cells.length > 1 && cells.every((cell, index) => cell === String(index + 1)),
		known: shares
	};
}
