import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { RosterValue } from '$lib/core/roster/roster-answer';
import { areManyLeaving, type DirectoryProposal } from '$lib/core/roster/scim/proposal';
import type { OpenRollout } from '$lib/server/open-rollouts';

/** How many rows of each table a page shows; the counts tell the whole. */
const most = 300;

interface ProposedRow {
	readonly id: string;
	readonly name: string;
	readonly kind: 'joins' | 'changes' | 'leaves';
	/** In words, where it is no field that changes. */
	readonly what: string;
	readonly fields: readonly { readonly field: string; readonly before: string; readonly after: string }[];
}

/** What an identity provider sent, as its sheet shows it: what is proposed, and what follows from each leaver. */
export function identityView(
	{ rollout }: OpenRollout,
	{ people, problems, changes }: DirectoryProposal,
	today: string
) {
	const { joined, moved, left } = changes;
	const personById = new Map(people.map((person) => [person.id, person]));
	const bookings = countBy(rollout.enrollment.bookings.filter(({ start }) => start >= today));
	const templates = countBy(rollout.privacy.templates.filter(isStored));
	const rows: readonly ProposedRow[] = [
		...joined.map((id): ProposedRow => {
			const { department, job } = personById.get(id) ?? {};
			const what = [department, job].filter((text) => text !== undefined && text !== null).join(', ');
			return { id, name: personById.get(id)?.name ?? id, kind: 'joins', what, fields: [] };
		}),
		...moved.map(({ person, fields }): ProposedRow => ({
			id: person,
			name: nameOf(rollout.people, person),
			kind: 'changes',
			fields: Object.entries(fields).map(([field, [before, after]]) => ({
				field,
				before: said(before),
				after: said(after)
			})),
			what: ''
		})),
		...left.map(({ person, leavesOn }): ProposedRow => ({
			id: person,
			name: nameOf(rollout.people, person),
			kind: 'leaves',
			what: [
				`last day ${leavesOn}`,
				followed(templates.get(person), 'template becomes', 'templates become', 'due for erasure'),
				followed(bookings.get(person), 'booking is', 'bookings are', 'free again')
			]
				.filter((text) => text !== '')
				.join('; '),
			fields: []
		}))
	];
	const employed = rollout.people.filter(({ leavesOn }) => leavesOn === null || leavesOn >= today).length;
	return {
		rows: rows.slice(0, most),
		problems: problems.slice(0, most).map((one, place) => ({ ...one, place })),
		counts: {
			all: rows.length,
			joined: joined.length,
			moved: moved.length,
			left: left.length,
			problems: problems.length
		},
		areManyLeaving: areManyLeaving(left.length, employed)
	};
}

/** Not erased everywhere yet. */
function isStored({ storedOn, erasures }: Rollout['privacy']['templates'][number]): boolean {
	return storedOn.some((place) => !erasures.some(({ from }) => from === place));
}

function countBy(list: readonly { readonly person: string }[]): ReadonlyMap<string, number> {
	const counts = new Map<string, number>();
	for (const { person } of list) counts.set(person, (counts.get(person) ?? 0) + 1);
	return counts;
}

function followed(count: number | undefined, one: string, many: string, what: string): string {
	return count === undefined ? '' : `${count} ${count === 1 ? one : many} ${what}`;
}

function said(value: RosterValue): string {
	return value === null || value.length === 0 ? 'nothing' : typeof value === 'string' ? value : value.join(', ');
}
