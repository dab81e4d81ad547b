/** What a schedule does on a kind of holiday: its own stretches, or nothing said. */
export type Treatment = 'normal' | 'closed' | readonly string[] | null | undefined;

/** A schedule with what it does on each kind of holiday. */
export interface StripSchedule {
	readonly id: string;
	readonly name: string;
	readonly treatments: Readonly<Record<string, Treatment>>;
	/** Where its name leads. */
	readonly href?: string;
}

/** A treatment in words; what is not said is undecided, and that counts as closed. */
export function treatmentWords(treatment: Treatment): string {
	if (treatment === undefined || treatment === null) return 'undecided';
	if (treatment === 'normal') return 'as usual';
	if (treatment === 'closed' || treatment.length === 0) return 'closed';
	return treatment.map((stretch) => stretch.replace('-', '–')).join(', ');
}
