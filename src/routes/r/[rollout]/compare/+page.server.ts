import { fail } from '@sveltejs/kit';
import type { ToldGroups } from '$lib/core/access/told-groups';
import type { Rollout } from '$lib/core/document/schema';
import { fault } from '$lib/core/kernel/fault';
import { shownAt } from '$lib/server/clock';
import { differencesSince } from '$lib/server/clouds';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { refuse } from '$lib/server/outcome';
import { listChanges, listIssues } from '$lib/server/rollouts';
import { groupsBetween, narrowed, readOnly, stateOf } from '$lib/server/views/compared';
import type { Actions, PageServerLoad } from './$types';

const perPage = 25;
const mostPeople = 60;
const mostEntries = 100;

export const load: PageServerLoad = async ({ params, url }) => {
	const open = rolloutOf(params);
	const { timeZone } = open.rollout.site;
	const get = (name: string) => url.searchParams.get(name) ?? '';
	const issues = listIssues(open.id);
	const changes = listChanges(open.id, undefined, 30);
	const letters = issues.ok ? issues.value.filter(({ withdrawnAt }) => withdrawnAt === null) : [];
	const states = [
		...letters.map(({ letter, note, at }) => ({
			value: letter,
			label: `Revision ${letter}, ${shownAt(timeZone, at)}: ${note}`
		})),
		...(changes.ok ? changes.value : []).map(({ number, what }) => ({
			value: String(number),
			label: `After change ${number}: ${what}`
		}))
	];
	const since = stateOf(open, get('since'));
	const until = stateOf(open, get('until') || 'now');
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
		doors: open.rollout.doors.map(({ id, name }) => ({ value: id, label: name ?? id }))
	};
	if (!since.ok || !until.ok) {
		const faults = [since, until].flatMap((one) => (one.ok ? [] : one.faults));
		return { ...shared, compared: null, faults: get('since') === '' && !shared.hasIssue ? [] : faults };
	}
	const compared = await comparedPage([since.value.rollout, until.value.rollout], filter, page);
	return { ...shared, compared: { ...compared, from: since.value.label, to: until.value.label }, faults: [] };
};

async function comparedPage(states: readonly [Rollout, Rollout], filter: Parameters<typeof narrowed>[1], page: number) {
	const outcome = await groupsBetween(...states);
	const { total, groups }: ToldGroups = outcome.ok
		? outcome.value
		: { total: { people: 0, doors: 0, gain: 0, lose: 0 }, groups: [] };
	const left = narrowed(groups, filter, states);
	const entries = differencesSince(...states);
	return {
		total,
		whole: groups.length,
		count: left.length,
		groups: left.slice((page - 1) * perPage, page * perPage).map(({ people, variants, ...group }) => ({
			...group,
			count: people.length,
			people: people.slice(0, mostPeople),
			variants: variants.slice(0, 20).map(({ people: own, ...variant }) => ({ ...variant, count: own.length }))
		})),
		entries: entries.slice(0, mostEntries).map(({ fields, ...entry }) => ({
			...entry,
			fields: fields.map(({ field, before, after }) => ({
				field,
				before: wordsOf(before),
				after: wordsOf(after)
			}))
		})),
		entryCount: entries.length
	};
}

/** A value of the document in a table: lists of words as they are said, what has more inside as JSON. */
function wordsOf(value: unknown): string {
	if (value === null || value === undefined || (Array.isArray(value) && value.length === 0)) return 'nothing';
	if (Array.isArray(value) && value.every((one) => typeof one === 'string')) return value.join(', ');
	return typeof value === 'string' ? value : JSON.stringify(value);
}

export const actions: Actions = {
	/** Compares the rollout with a document that is only looked at: nothing of it is kept. */
	document: async ({ request, params, url }) => {
		const form = await request.formData();
		const open = rolloutOf(params);
		const file = form.get('document');
		if (!(file instanceof File) || file.name === '') {
			const missing = refuse('invalid', fault(['document'], null, 'a rollout document: choose a file first'));
			return missing.ok ? fail(422) : refusedForm(missing, form, url);
		}
		const read = readOnly(new Uint8Array(await file.arrayBuffer()));
		if (!read.ok) return refusedForm(read, form, url);
		const none = { person: '', department: '', door: '', does: '' };
		const compared = await comparedPage([read.value, open.rollout], none, 1);
		return { form: 'compared' as const, compared: { ...compared, from: `the document ${file.name}`, to: 'now' } };
	}
};
