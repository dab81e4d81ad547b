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

/** What happens on a holiday, as a mark shows it. */
export type Doing = 'normal' | 'closed' | 'own' | 'undecided' | 'not-valid';

/** The mark of a treatment. */
export function doingOf(treatment: Treatment): Doing {
	if (treatment === undefined || treatment === null) return 'undecided';
	if (treatment === 'normal' || treatment === 'closed') return treatment;
	return treatment.length === 0 ? 'closed' : 'own';
}

/** What a schedule does on one date, in the order of the dates. */
export interface DateDoing {
	readonly doing: Doing;
	/** `closed`, `as usual: 07:00–19:00` */
	readonly words: string;
}

/** A holiday of the year as a column. */
export interface DateColumn {
	readonly date: string;
	/** `1 Jan` */
	readonly label: string;
	readonly name: string;
	readonly kind: string;
}
