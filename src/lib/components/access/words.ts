/** Small sentences about access, each made in one place. */

import type { WindowRow } from './grid-window';

/** Two inclusive date limits: `from 2027-01-25`, `until …`, `2027-01-25 to 2027-03-31`, `without limit`. */
export function datesWords(from: string | null, until: string | null): string {
	if (from !== null && until !== null) return `${from} to ${until}`;
	if (from !== null) return `from ${from}`;
	return until === null ? 'without limit' : `until ${until}`;
}

/** `1 person`, `24 people`. */
export function peopleWords(count: number): string {
	return count === 1 ? '1 person' : `${count} people`;
}

/** What is said below the name of a row, with who of it is employed in the week where that is not everybody. */
export function rowNote({ note, listed, people }: WindowRow): string {
	if (people === listed) return note;
	return people === 0 ? `${note}, not employed` : `${people} of ${listed} people employed`;
}

/** `312 of 400` where it is neither none nor all; null where it is, or where one person only is spoken of. */
export function shareWords(can: number, people: number): string | null {
	return people < 2 || can === 0 || can === people ? null : `${can} of ${people}`;
}
