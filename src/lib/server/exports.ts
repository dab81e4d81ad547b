import { exportsByName } from '$lib/core/exports';
import type { Export, ExportedFile } from '$lib/core/exports/define-export';
import { todayAt } from './clock';
import type { OpenRollout } from './open-rollouts';

/** The exports of a rollout with their files; one of them only where `name` is given. */
export function exportFiles(
	{ document, rollout }: OpenRollout,
	name?: string
): { readonly entry: Export; readonly files: readonly ExportedFile[] }[] {
	const input = { document, rollout, madeAt: Date.now(), today: todayAt(rollout.site.timeZone) };
	return [...exportsByName.values()]
		.filter((entry) => name === undefined || entry.name === name)
		.map((entry) => ({ entry, files: entry.files(input) }));
}
