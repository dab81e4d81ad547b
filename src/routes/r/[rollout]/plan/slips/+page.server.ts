import { departmentZip } from '$lib/core/exports/person-calendars';
import { fault } from '$lib/core/kernel/fault';
import { todayAt } from '$lib/server/clock';
import { exportFiles } from '$lib/server/exports';
import { change, refusedForm, rolloutOf } from '$lib/server/http/change';
import { textIn } from '$lib/server/http/forms';
import { type SlipChoice, mostSlips, slipsOf } from '$lib/server/views/slips';
import type { Actions, PageServerLoad } from './$types';

const everyone = '*';

function choiceIn(url: URL): SlipChoice {
	const department = url.searchParams.get('department') ?? everyone;
	const who = url.searchParams.get('who');
	return {
		department: department === everyone ? null : department,
		who: who === 'anew' || who === 'all' ? who : 'open'
	};
}

export const load: PageServerLoad = ({ params, url }) => {
	const open = rolloutOf(params);
	const { rollout } = open;
	const choice = choiceIn(url);
	const slips = slipsOf(rollout, choice);
	const page = Math.max(1, Math.min(Number(url.searchParams.get('page')) || 1, Math.ceil(slips.length / mostSlips)));
	const departments = [...new Set(rollout.people.map(({ department }) => department ?? ''))].sort();
	const zips = exportFiles(open, 'person-calendars')[0]?.files ?? [];
	const wanted = choice.department === null ? null : departmentZip(choice.department);
	return {
		slips: slips.slice((page - 1) * mostSlips, page * mostSlips),
		count: slips.length,
		page,
		perPage: mostSlips,
		choice: { department: choice.department ?? everyone, who: choice.who },
		departments: [
			{ value: everyone, label: 'Every department' },
			...departments.map((name) => ({ value: name, label: name || 'No department' }))
		],
		calendars: zips
			.filter(({ name }) => wanted === null || name === wanted)
			.map(({ name, about }) => ({ name, about })),
		invitation: rollout.enrollment.invitation,
		bookings: rollout.enrollment.bookings.length,
		today: todayAt(rollout.site.timeZone)
	};
};

export const actions: Actions = {
	words: async (event) => {
		const form = await event.request.formData();
		const fields = ['contact', 'email', 'phone', 'bring'].map((name) => [name, textIn(form, name)] as const);
		const value = Object.fromEntries(fields.filter(([, text]) => text !== null));
		return change(event, form, 'set-part', {
			part: 'enrollment.invitation',
			value: Object.keys(value).length === 0 ? null : value
		});
	},
	told: async (event) => {
		const form = await event.request.formData();
		const shown = form.getAll('shown').map(String);
		const marks = new Map(
			slipsOf(rolloutOf(event.params).rollout, { department: null, who: 'all' }).map(({ person, mark }) => [
				`${person} ${mark}`,
				person
			])
		);
		const people = shown.map((one) => marks.get(one));
		if (people.includes(undefined)) {
			const expected = 'appointments as they were printed; some were moved since, so print those slips again';
			return refusedForm(
				{ ok: false, why: 'conflict', faults: [fault(['people'], shown.length, expected)] },
				form,
				event.url
			);
		}
		return change(event, form, 'mark-told', { people, on: textIn(form, 'on') });
	}
};
