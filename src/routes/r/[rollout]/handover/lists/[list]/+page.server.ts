import { error, redirect } from '@sveltejs/kit';
import { tableChoice } from '$lib/core/exports/support/table-choice';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { chosenIn, textIn } from '$lib/server/http/forms';
import { needList, offeredLists, queryOfChoice, rememberChoice, rememberedChoice } from '$lib/server/lists';
import { moved } from '$lib/server/http/moved';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

function listOf(params: { list: string }) {
	const list = needList(params.list);
	if (!list.ok) error(404, list.faults[0]?.message ?? 'There is no such list.');
	return list.value;
}

export const load: PageServerLoad = ({ params }) => {
	const open = rolloutOf(params);
	const list = listOf(params);
	const choice = rememberedChoice(open, list);
	const offered = offeredLists(open).find(({ name }) => name === list.name)?.columns ?? [];
	const places = new Map(choice.columns.map((key, place) => [key, place]));
	const placeOf = (key: string) => places.get(key) ?? choice.columns.length;
	return {
		list: { name: list.name, title: list.title, summary: list.summary, sheet: list.sheet },
		choice,
		columns: offered
			.map((column) => ({ ...column, isChosen: places.has(column.key) }))
			.sort((a, b) => placeOf(a.key) - placeOf(b.key))
	};
};

/** The choice that a form sends: the ticked columns in the order shown, one of them moved where a button says so. */
async function keep({ request, params, url }: RequestEvent) {
	const form = await request.formData();
	const [open, list] = [rolloutOf(params), listOf(params)];
	const [way, ...key] = (textIn(form, 'move') ?? '').split(' ');
	const columns = moved(chosenIn(form, 'column'), key.join(' '), way === 'up' ? -1 : 1);
	const choice = tableChoice.parse({
		columns,
		format: form.get('format') === 'xlsx' ? 'xlsx' : 'csv',
		delimiter: tableChoice.shape.delimiter.catch('comma').parse(form.get('delimiter') ?? undefined)
	});
	const kept = rememberChoice(open, list, choice);
	return kept.ok ? { choice: { ...choice, columns } } : { refused: refusedForm(kept, form, url) };
}

export const actions: Actions = {
	/** Remembers what is ticked, and moves a column. */
	async keep(event) {
		const { refused } = await keep(event);
		if (refused) return refused;
		redirect(303, `${event.url.pathname}#columns`);
	},
	/** Remembers, and sends the file. */
	async take(event) {
		const { refused, choice } = await keep(event);
		if (refused) return refused;
		redirect(303, `${event.url.pathname}/file?${queryOfChoice(choice)}`);
	},
	reset({ params, url }) {
		rememberChoice(rolloutOf(params), listOf(params), null);
		redirect(303, url.pathname);
	}
};
