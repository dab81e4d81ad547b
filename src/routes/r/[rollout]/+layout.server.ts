import { listsByName } from '$lib/core/exports/lists';
import { rolloutOf } from '$lib/server/http/change';
import { shownAt } from '$lib/server/clock';
import { cloudsOf } from '$lib/server/clouds';
import { figuresOf } from '$lib/server/figures';
import { recordHead, undoState } from '$lib/server/rollouts';
import { shownHead } from '$lib/core/document/verify-record';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = async ({ params, locals }) => {
	const open = rolloutOf(params);
	const { site, enrollment } = open.rollout;
	const goLive = enrollment.waves
		.flatMap((wave) => wave.goLive ?? [])
		.sort()
		.at(0);
	const figures = await figuresOf(open);
	const { undo, redo } = undoState(open.id);
	const head = recordHead(open.id);
	const clouds = cloudsOf(open);
	const letter = clouds === null ? '' : clouds.isIssued ? `${clouds.letter} · ` : `${clouds.next} draft · `;
	return {
		id: open.id,
		about: goLive === undefined ? site.name : `${site.name} · first go-live ${goLive}`,
		figures,
		clouds,
		lists: [...listsByName.values()].map(({ name, title, sheet }) => ({ name, title, sheet })),
		undo: undo && { number: undo.number, what: undo.what, who: undo.who },
		redo: redo && { number: redo.number, what: redo.what },
		titleBlock: {
			rollout: open.name,
			site: site.name,
			revision: letter + open.revision.slice(0, 7),
			record: head ? shownHead(head) : `${open.lastChange} · not sealed`,
			shownAt: shownAt(site.timeZone),
			by: locals.actor,
			...(figures.findings ? { checked: { text: figures.findings.text, state: figures.findings.state ?? 'note' } } : {})
		}
	};
};
