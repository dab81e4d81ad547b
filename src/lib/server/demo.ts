import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { importDocument, listRemovedRollouts, listRollouts } from './manage-rollouts';
import { store } from './store/current';

/** The folder with the invented sites: DOORWRIGHT_DEMO, else `demo-data` in the project. */
export function demoFolder(): string {
	return path.resolve(process.env['DOORWRIGHT_DEMO'] || 'demo-data');
}

/**
 * Loads the invented sites on the very first start, so that there is something to look at; never again, also not when
 * they were deleted. Gives a sentence for each document that could not be loaded.
 */
export function loadDemoOnFirstStart(): readonly string[] {
	return store().inTransaction(() => {
		if (store().fact('first-started-at') !== undefined) return [];
		store().setFact('first-started-at', new Date().toISOString());
		if (listRollouts().length + listRemovedRollouts().length > 0) return [];
		return demoDocuments().flatMap(({ file, text }) => {
			const kept = importDocument(text, 'Doorwright');
			return kept.ok ? [] : [`${file} is not loaded: ${kept.faults.map((one) => one.message).join('; ')}`];
		});
	});
}

/** Rollout documents in the folder, by name; other JSON files lie there too and are passed over. */
function demoDocuments(): { readonly file: string; readonly text: string }[] {
	const folder = demoFolder();
	if (!existsSync(folder)) return [];
	return readdirSync(folder)
		.filter((file) => file.endsWith('.json'))
		.sort()
		.map((file) => ({ file, text: readFileSync(path.join(folder, file), 'utf8') }))
		.filter(({ text }) => /^\ufeff?\s*\{\s*"format"\s*:\s*"doorwright\.rollout"/.test(text));
}
