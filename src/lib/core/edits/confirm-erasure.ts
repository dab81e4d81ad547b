import { z } from 'zod';
import type { LocalDate } from '../calendar/local-date';
import { date, entry, id, text, word } from '../document/fields';
import { entriesOf } from '../document/lists';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import {
	type OrderWithTemplate,
	type WrittenOrder,
	type WrittenTemplate,
	heldOn,
	isErasedAt,
	ordersWithTemplates,
	toldOrders,
	withReplaced
} from './support/erasure-order';

const said = (what: string) => text(what, (value) => value.trim() !== '');

/** Confirms places of work orders as erased; where the site wants a second pair of eyes, they are reported for now. */
export default defineEdit({
	name: 'confirm-erasure',
	summary:
		'Confirms that templates were erased at places of work orders: when, by whom, with what evidence. Where the site wants it, a second person confirms after that; until then nothing counts as erased.',
	params: entry({
		orders: z.array(id, { error: 'a list of ids of work orders' }).min(1, { error: 'at least one work order' }),
		places: z.array(word, { error: 'a list of places' }).min(1, { error: 'at least one place' }),
		on: date,
		by: said('who erased it'),
		evidence: said('what proves it: a report, a serial number, a log')
	}),
	apply(document, { orders, places, on, by, evidence }) {
		const found = ordersWithTemplates(document, orders);
		if (!found.ok) return found;
		const faults = [
			...strangePlaces(found.value, places),
			...offlinePlaces(entriesOf(document, 'templatePlaces'), places, on)
		];
		const held = heldOn(document, on);
		const needsSecond = document.privacy?.erasureRules?.secondPerson ?? false;
		const ordersAfter = new Map<WrittenOrder, WrittenOrder>();
		const templatesAfter = new Map<WrittenTemplate, WrittenTemplate>();
		for (const { order, template, at } of found.value) {
			const own = [...new Set(places)].filter((place) => template.storedOn.includes(place));
			for (const place of own) {
				const why = whyNotOpen(order, template, place);
				if (why !== null) faults.push(fault(['places', places.indexOf(place)], place, why));
			}
			if (on < template.enrolledOn)
				faults.push(fault(['on'], on, `${template.enrolledOn} or later: ${order.person} was enrolled on that day`));
			if (held.has(order.person))
				faults.push(fault(at, order.id, `an order without a hold on ${on}: nothing is erased while it lasts`));
			const added = own.map((from) => ({ from, on, by: by.trim(), evidence: evidence.trim() }));
			if (needsSecond) ordersAfter.set(order, { ...order, reports: [...(order.reports ?? []), ...added] });
			else templatesAfter.set(template, { ...template, erasures: [...(template.erasures ?? []), ...added] });
		}
		if (faults.length > 0) return refused(faults);
		return ok(withReplaced(document, ordersAfter, templatesAfter));
	},
	happened: ({ on }) => [{ param: ['on'], on, what: 'an erasure' }],
	describe: ({ orders, places, on }) => `${toldOrders(orders)} done at ${places.join(', ')} on ${on}`
});

/** Places that none of the orders is about. */
function strangePlaces(orders: readonly OrderWithTemplate[], places: readonly string[]): Fault[] {
	const known = [...new Set(orders.flatMap(({ template }) => template.storedOn))];
	return places.flatMap((place, at) =>
		known.includes(place)
			? []
			: [fault(['places', at], place, `a place of the work order: ${known.join(', ')}`, nearestName(place, known))]
	);
}

function offlinePlaces(
	told: readonly { readonly id: string; readonly offlineSince?: LocalDate | null | undefined }[],
	places: readonly string[],
	on: LocalDate
): Fault[] {
	return places.flatMap((place, at) => {
		const since = told.find((one) => one.id === place)?.offlineSince ?? null;
		if (since === null || since > on) return [];
		const expected = `a place that can be reached; it is offline since ${since} and stays open until it is not`;
		return [fault(['places', at], place, expected)];
	});
}

function whyNotOpen(order: WrittenOrder, template: WrittenTemplate, place: string): string | null {
	if (isErasedAt(template, place)) return `a place where the template of ${order.person} is left`;
	if ((order.reports ?? []).some((one) => one.from === place))
		return `a place not reported yet for ${order.id}; a second person confirms this one`;
	return null;
}
