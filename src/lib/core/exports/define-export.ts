import type { Rollout, RolloutDocument } from '../document/schema';
import type { LocalDate } from '../calendar/local-date';
import type { AppointmentRecord } from './support/appointments';

/** One file that an export makes. */
export interface ExportedFile {
	readonly name: string;
	/** MIME type. */
	readonly type: string;
	/** Makes the text, written as UTF-8, or the bytes: only what is taken is worked out. */
	readonly content: () => string | Uint8Array<ArrayBuffer>;
	/** What is in it, in a few words. */
	readonly about: string;
}

/** What an export is made from. */
export interface ExportInput {
	readonly document: RolloutDocument;
	readonly rollout: Rollout;
	/** Milliseconds since 1970-01-01T00:00:00Z at which it is made, for stamps that a standard wants. */
	readonly madeAt: number;
	/** Today at the site. */
	readonly today: LocalDate;
	/** What the record of changes knows of bookings; without it appointments are in their first state. */
	readonly record?: AppointmentRecord | undefined;
}

/** A way out of the app: one file in this folder, its default export made by `defineExport`. */
export interface Export {
	readonly name: string;
	readonly title: string;
	/** One or two sentences: what is in it, for whom, what cannot be expressed. */
	readonly summary: string;
	/** The files; empty where there is nothing to write yet. Quick: what they hold is made when it is asked for. */
	files(input: ExportInput): readonly ExportedFile[];
	/** Files beside those, too many to be listed, by their name. */
	unlisted?(input: ExportInput, name: string): ExportedFile | undefined;
	/** The files hold appointments, of people or at stations: when they are taken out is remembered, so that they can be withdrawn. */
	readonly appointments?: 'people' | 'stations';
}

/** Gives an export its types; the identity otherwise. */
export function defineExport(entry: Export): Export {
	return entry;
}
