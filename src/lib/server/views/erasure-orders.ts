import type { LocalDate } from '$lib/core/calendar/local-date';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { type ErasureOrderStatus, erasureOrders, templatePlaceName } from '$lib/core/privacy/erasure-orders';
import { retentionOn } from '$lib/core/privacy/retention';

/** Work orders as the sheet shows them: those with work left first, then the latest. */
export function orderLines(rollout: Rollout, on: LocalDate) {
	return erasureOrders(rollout, on)
		.map((status) => ({ ...lineOf(rollout, status), steps: status.steps }))
		.reverse()
		.sort((a, b) => Number(a.doneOn !== null) - Number(b.doneOn !== null));
}

export type OrderLine = ReturnType<typeof orderLines>[number];

function lineOf(rollout: Rollout, { order, steps, doneOn }: ErasureOrderStatus) {
	const { id, person, enrolledOn, openedOn, openedBy, reason } = order;
	const name = nameOf(rollout.people, person);
	return { id, person, name, enrolledOn, openedOn, openedBy, reason, doneOn, places: steps.length };
}

/** What is to be done at one place, order by order. */
export function workAt(lines: readonly OrderLine[], place: string) {
	return lines.flatMap(({ steps, ...line }) => {
		const step = steps.find((one) => one.place === place);
		return step && step.state !== 'erased' ? [{ ...line, step }] : [];
	});
}

/** Whose templates may get an order: those due or overdue, and those of people who have left; none that has one. */
export function peopleToErase(rollout: Rollout, on: LocalDate) {
	const hasOrder = new Set(rollout.privacy.erasureOrders.map(({ person, enrolledOn }) => `${enrolledOn} ${person}`));
	const left = new Set(rollout.people.filter(({ leavesOn }) => leavesOn !== null && leavesOn < on).map(({ id }) => id));
	const open = retentionOn(rollout, on).templates.filter(
		({ person, enrolledOn, state }) =>
			state !== 'erased' && state !== 'held' && enrolledOn <= on && !hasOrder.has(`${enrolledOn} ${person}`)
	);
	const people = (lines: typeof open) => [...new Set(lines.map(({ person }) => person))];
	return {
		all: people(open),
		due: people(open.filter(({ state }) => state === 'due' || state === 'overdue')),
		leavers: people(open.filter(({ person }) => left.has(person)))
	};
}

/** Every place that holds templates or is told of, with how many orders have work left there. */
export function placeLines(rollout: Rollout, lines: readonly OrderLine[]) {
	const { templates, places } = rollout.privacy;
	const known = new Set([
		...templates.flatMap(({ storedOn }) => storedOn),
		...places.map(({ id }) => id),
		...rollout.controllers.map(({ id }) => id),
		...rollout.enrollment.stations.map(({ id }) => id)
	]);
	const work = new Map<string, number>();
	for (const { steps } of lines) {
		for (const { place, state } of steps) if (state !== 'erased') work.set(place, (work.get(place) ?? 0) + 1);
	}
	return [...known].map((id) => {
		const told = places.find((place) => place.id === id);
		return {
			id,
			name: templatePlaceName(rollout, id),
			kind: told?.kind ?? 'other',
			copies: told?.copies ?? [],
			keepsDays: told?.keepsDays ?? null,
			expiresOn: told?.expiresOn ?? null,
			offlineSince: told?.offlineSince ?? null,
			isTold: told !== undefined,
			work: work.get(id) ?? 0
		};
	});
}
