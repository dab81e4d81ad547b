import { fail, redirect } from '@sveltejs/kit';
import { fault } from '$lib/core/kernel/fault';
import { shownAt } from '$lib/server/clock';
import { differencesSince } from '$lib/server/clouds';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import { compareStates, forgetStopped, stopComparing } from '$lib/server/jobs/comparings';
import { refuse } from '$lib/server/outcome';
import { listChanges, listIssues } from '$lib/server/rollouts';
import { lookAt, lookedAt, stateOf } from '$lib/server/views/compared';
import { entryView, groupsView } from '$lib/server/views/compared-page';
import type { Actions, PageServerLoad } from './$types';

const perPage = 25;
const mostEntries = 100;

export const load: PageServerLoad = async ({ params, url, depends }) => {
	depends('app:compare');
	const open = rolloutOf(params);
	const { timeZone } = open.rollout.site;
	const get = (name: string) => url.searchParams.get(name) ?? '';
	const issues = listIssues(open.id);
	const changes = listChanges(open.id, undefined, 30);
	const letters = issues.ok ? issues.value.filter(({ withdrawnAt }) => withdrawnAt === null) : [];
	const states = [
		...lookedAt(open),
		...letters.map(({ letter, note, at }) => ({
			value: letter,
			label: `Revision ${letter}, ${shownAt(timeZone, at)}: ${note}`
		})),
		...(changes.ok ? changes.value : []).map(({ number, what }) => ({
			value: String(number),
			label: `After change ${number}: ${what}`
		}))
	];
	const filter = { person: get('person'), department: get('department'), door: get('door'), does: get('does') };
	const page = Math.max(1, Number(get('page')) || 1);
	const shared = {
		states,
		filter,
		page,
		perPage,
		asked: { since: get('since') || (letters[0]?.letter ?? ''), until: get('until') || 'now' },
		hasIssue: letters.length > 0,
		departments: [...new Set(open.rollout.people.flatMap(({ department }) => department ?? []))].sort(),
		doors: open.rollout.doors.map(({ id, name }) => ({ value: id, label: name ?? id })),
		comparing: null,
		compared: null
	};
	if (get('since') === '' && !shared.hasIssue) return { ...shared, faults: [] };
	const [since, until] = [stateOf(open, get('since')), stateOf(open, get('until') || 'now')];
	if (!since.ok || !until.ok) {
		return { ...shared, faults: [since, until].flatMap((one) => (one.ok ? [] : one.faults)) };
	}
	const { value, ...comparing } = await compareStates([since.value, until.value], {
		person: filter.person || undefined,
		department: filter.department || undefined,
		door: filter.door || undefined,
		does: filter.does === 'lose' || filter.does === 'gain' ? filter.does : undefined
	});
	const between = { from: since.value.label, to: until.value.label };
	if (!value) return { ...shared, faults: [], comparing: { ...comparing, ...between } };
	const entries = differencesSince(since.value.rollout, until.value.rollout);
	return {
		...shared,
		faults: [],
		compared: {
			...between,
			...groupsView(value, (page - 1) * perPage, perPage),
			entries: entries.slice(0, mostEntries).map(entryView),
			entryCount: entries.length
		}
	};
};

export const actions: Actions = {
	/** Compares the rollout with a document that is only looked at: it is never written anywhere. */
	document: async ({ request, params, url }) => {
		const form = await request.formData();
		const open = rolloutOf(params);
		const file = form.get('document');
		if (!(file instanceof File) || file.name === '') {
			const missing = refuse('invalid', fault(['document'], null, 'a rollout document: choose a file first'));
			return missing.ok ? fail(422) : refusedForm(missing, form, url);
		}
		const key = lookAt(open, file.name, new Uint8Array(await file.arrayBuffer()));
		if (!key.ok) return refusedForm(key, form, url);
		redirect(303, `${url.pathname}?since=${key.value}&until=now`);
	},
	stop: async ({ request, url }) => {
		await stopComparing(textIn(await request.formData(), 'comparing') ?? '');
		redirect(303, addressOf(url));
	},
	again: async ({ request, url }) => {
		forgetStopped(textIn(await request.formData(), 'comparing') ?? '');
		redirect(303, addressOf(url));
	}
};

/** The address without the name of the action in it. */
function addressOf(url: URL): string {
	const query = new URLSearchParams([...url.searchParams].filter(([name]) => !name.startsWith('/')));
	return `${url.pathname}?${query.toString()}`;
}
