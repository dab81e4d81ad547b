import type { Rollout, RolloutDocument } from '../document/schema';

/** One file that an export makes. */
export interface ExportedFile {
	readonly name: string;
	/** MIME type. */
	readonly type: string;
	/** Text, written as UTF-8. */
	readonly content: string;
}

/**
 * A way out of the app: one file in this folder, its default export made by `defineExport`.
 */
export interface Export {
	readonly name: string;
	readonly title: string;
	/** One or two sentences: what is in it, for whom, what cannot be expressed. */
	readonly summary: string;
	/** The files; `made` is the local date-time of making, for stamps. */
	make(document: RolloutDocument, rollout: Rollout, made: string): readonly ExportedFile[];
}

/** Gives an export its types; the identity otherwise. */
export function defineExport(entry: Export): Export {
	return entry;
}
