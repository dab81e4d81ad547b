import { redirect } from '@sveltejs/kit';
import { isLocalDate } from '$lib/core/calendar/local-date';
import { fault } from '$lib/core/kernel/fault';
import { rosterConsequences } from '$lib/core/answers/support/roster-consequences';
import { columnFields } from '$lib/core/roster/fields';
import type { Correction } from '$lib/core/roster/corrections';
import { importRoster } from '$lib/core/roster/import-roster';
import { takingOver } from '$lib/core/roster/taking-over';
import { todayAt } from '$lib/server/clock';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { isTicked, textIn } from '$lib/server/http/forms';
import { refuse } from '$lib/server/outcome';
import { editRollout } from '$lib/server/rollouts';
import { type RosterDraft, dropRoster, findRoster, keepRoster, mapRoster, mendRoster } from '$lib/server/roster-drafts';
import { followingView, rosterView } from '$lib/server/views/roster';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const id = url.searchParams.get('draft');
	const draft = id === null ? undefined : findRoster(params.rollout, id);
	const today = todayAt(rollout.site.timeZone);
	const shared = { fields: columnFields, today, isGone: id !== null && !draft };
	if (!draft) return { ...shared, draft: null, proposal: null, following: null, faults: null };
	const read = importRoster(draft.bytes, { map: draft.map, corrections: draft.corrections, into: rollout });
	const about = { id: draft.id, fileName: draft.fileName, map: draft.map, corrections: draft.corrections };
	if (!read.ok) return { ...shared, draft: about, proposal: null, following: null, faults: read.faults };
	const follows = rosterConsequences(open, read.value, today, today);
	return {
		...shared,
		draft: about,
		proposal: rosterView(rollout, read.value),
		following: follows.ok ? followingView(rollout, follows.value) : null,
		faults: follows.ok ? null : follows.faults
	};
};

export const actions: Actions = {
	choose: async ({ request, params, url }) => {
		const { rollout } = rolloutOf(params);
		const form = await request.formData();
		const chosen = await listIn(form);
		if (chosen === undefined) {
			const none = refuse(
				'invalid',
				fault(['roster'], null, 'a list of people: choose a file, or paste a range, first')
			);
			return none.ok ? undefined : refusedForm(none, form, url);
		}
		const { name, bytes } = chosen;
		const read = importRoster(bytes, { into: rollout });
		if (!read.ok) return refusedForm({ ok: false, why: 'invalid', faults: read.faults }, form, url);
		redirect(303, `${url.pathname}?draft=${keepRoster(params.rollout, name, bytes).id}`);
	},
	map: async ({ request, params, url }) => {
		const { rollout } = rolloutOf(params);
		const form = await request.formData();
		const draft = draftOf(form, params.rollout, url);
		const map = mapIn(form);
		const read = importRoster(draft.bytes, { map, corrections: draft.corrections, into: rollout });
		if (!read.ok) return refusedForm({ ok: false, why: 'invalid', faults: read.faults }, form, url);
		mapRoster(draft, map);
		redirect(303, `${url.pathname}?draft=${draft.id}`);
	},
	mend: async ({ request, params, url }) => {
		const { rollout } = rolloutOf(params);
		const form = await request.formData();
		const draft = draftOf(form, params.rollout, url);
		const corrections = form.has('takeBack') ? [] : [...draft.corrections, ...correctionsIn(form)];
		const read = importRoster(draft.bytes, { map: draft.map, corrections, into: rollout });
		if (!read.ok) return refusedForm({ ok: false, why: 'invalid', faults: read.faults }, form, url);
		mendRoster(draft, corrections);
		redirect(303, `${url.pathname}?draft=${draft.id}`);
	},
	apply: async (event) => {
		const { rollout } = rolloutOf(event.params);
		const form = await event.request.formData();
		const draft = draftOf(form, event.params.rollout, event.url);
		const read = importRoster(draft.bytes, { map: draft.map, corrections: draft.corrections, into: rollout });
		if (!read.ok) return refusedForm({ ok: false, why: 'invalid', faults: read.faults }, form, event.url);
		const leavesOn = textIn(form, 'leavesOn');
		if (isTicked(form, 'leave') && (leavesOn === null || !isLocalDate(leavesOn))) {
			const wrong = fault(['leavesOn'], leavesOn, 'the last day of those who left, like 2027-01-04');
			return refusedForm({ ok: false, why: 'invalid', faults: [wrong] }, form, event.url);
		}
		if (rosterView(rollout, read.value).isHalfMissing && !isTicked(form, 'whole')) {
			const unsure = fault(
				['whole'],
				null,
				'a tick that this is the whole list, as half of the people or more are missing in it'
			);
			return refusedForm({ ok: false, why: 'invalid', faults: [unsure] }, form, event.url);
		}
		const params = takingOver(read.value, {
			leavesOn: isTicked(form, 'leave') && leavesOn !== null && isLocalDate(leavesOn) ? leavesOn : undefined
		});
		const isNothing = params.people.length === 0 && params.leave === null;
		const outcome = isNothing
			? undefined
			: editRollout(event.params.rollout, 'apply-roster', params, event.locals.actor);
		if (outcome && !outcome.ok) return refusedForm(outcome, form, event.url);
		dropRoster(draft.id);
		redirect(303, event.url.pathname.replace(/roster$/, 'people'));
	},
	cancel: async ({ request, url }) => {
		const form = await request.formData();
		dropRoster(textIn(form, 'draft') ?? '');
		redirect(303, url.pathname);
	}
};

/** The file that was chosen, or else the range that was pasted; undefined where there is neither. */
async function listIn(form: FormData): Promise<{ name: string; bytes: Uint8Array } | undefined> {
	const file = form.get('roster');
	if (file instanceof File && file.name !== '') {
		return { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
	}
	const pasted = form.get('pasted');
	if (typeof pasted !== 'string' || pasted.trim() === '') return undefined;
	return { name: 'Pasted range', bytes: new TextEncoder().encode(pasted) };
}

function draftOf(form: FormData, rollout: string, url: URL): RosterDraft {
	const id = textIn(form, 'draft') ?? '';
	return findRoster(rollout, id) ?? redirect(303, `${url.pathname}?draft=${encodeURIComponent(id)}`);
}

/** Cells that the user put right: `cell ROW HEADER`; one that was left empty is left as it is. */
function correctionsIn(form: FormData): Correction[] {
	return [...form].flatMap(([name, value]) => {
		const [, row, column] = /^cell (\d+) ([^]*)$/.exec(name) ?? [];
		if (row === undefined || column === undefined || typeof value !== 'string' || value.trim() === '') return [];
		return [{ row: Number(row), column, value: value.trim() }];
	});
}

/** What the user said about the list; what was left as recognized is not said. */
function mapIn(form: FormData): Record<string, unknown> {
	const columns: Record<string, string | null> = {};
	for (const [name, value] of form) {
		if (!name.startsWith('column ') || typeof value !== 'string' || value === 'as recognized') continue;
		columns[name.slice('column '.length)] = value === 'not used' ? null : value;
	}
	const said = {
		columns: Object.keys(columns).length > 0 ? columns : null,
		dateOrder: textIn(form, 'dateOrder'),
		encoding: textIn(form, 'encoding'),
		delimiter: { comma: ',', semicolon: ';', tab: '\t', bar: '|' }[textIn(form, 'delimiter') ?? ''] ?? null,
		sheet: textIn(form, 'sheet')
	};
	return Object.fromEntries(Object.entries(said).filter(([, value]) => value !== null));
}
