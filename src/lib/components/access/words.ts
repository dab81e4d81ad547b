/** Small sentences about access, each made in one place. */

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
