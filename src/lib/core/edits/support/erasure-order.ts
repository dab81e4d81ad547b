import { type EntryOf, entriesOf, withEntries } from '../../document/lists';
import type { RolloutDocument } from '../../document/schema';
import { type Fault, type PathStep, fault } from '../../kernel/fault';
import { nearestName } from '../../kernel/nearest';
import { type Result, ok, refused } from '../../kernel/result';

export type WrittenOrder = EntryOf<'erasureOrders'>;
export type WrittenTemplate = EntryOf<'templates'>;

/** A work order with the template that it is about. */
export interface OrderWithTemplate {
	readonly order: WrittenOrder;
	readonly template: WrittenTemplate;
	/** Where it stands among the orders that were named. */
	readonly at: readonly PathStep[];
}

/** The work orders with these ids, each once; refused with every one that is not there, or whose template is gone. */
export function ordersWithTemplates(document: RolloutDocument, ids: readonly string[]): Result<OrderWithTemplate[]> {
	const byId = new Map(entriesOf(document, 'erasureOrders').map((order) => [order.id, order]));
	// The latest of that day counts, as where the order is shown.
	const templates = new Map(entriesOf(document, 'templates').map((one) => [keyOf(one), one]));
	const faults: Fault[] = [];
	const found = [...new Set(ids)].flatMap((id, place) => {
		const at = ['orders', place];
		const order = byId.get(id);
		const template = order && templates.get(keyOf(order));
		if (order && template) return [{ order, template, at }];
		faults.push(
			order
				? fault(at, id, 'a work order whose template is on record')
				: fault(at, id, 'the id of an erasure work order', nearestName(id, [...byId.keys()]))
		);
		return [];
	});
	return faults.length > 0 ? refused(faults) : ok(found);
}

/** The people under a hold that covers a day. */
export function heldOn(document: RolloutDocument, on: string): ReadonlySet<string> {
	return new Set(
		entriesOf(document, 'holds')
			.filter((hold) => (hold.from ?? on) <= on && on <= (hold.until ?? on))
			.map((hold) => hold.person)
	);
}

/** True when a place was emptied; an erasure dated before the enrollment empties nothing. */
export function isErasedAt({ erasures, enrolledOn }: WrittenTemplate, place: string): boolean {
	return (erasures ?? []).some((one) => one.from === place && one.on >= enrolledOn);
}

/** The document with other orders and templates in the place of some. */
export function withReplaced(
	document: RolloutDocument,
	orders: ReadonlyMap<WrittenOrder, WrittenOrder>,
	templates: ReadonlyMap<WrittenTemplate, WrittenTemplate>
): RolloutDocument {
	const told =
		orders.size === 0
			? document
			: withEntries(
					document,
					'erasureOrders',
					entriesOf(document, 'erasureOrders').map((one) => orders.get(one) ?? one)
				);
	if (templates.size === 0) return told;
	return withEntries(
		told,
		'templates',
		entriesOf(told, 'templates').map((one) => templates.get(one) ?? one)
	);
}

/** Names are compared as people write them: capitals, spaces and accents make no second person. */
export function isSamePerson(a: string, b: string): boolean {
	const plain = (name: string) =>
		name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().split(/\s+/).filter(Boolean).join(' ');
	return plain(a) === plain(b);
}

/** What stands in a message for one order or several. */
export function toldOrders(orders: readonly string[]): string {
	return orders.length === 1 ? `Erasure ${orders[0] ?? ''}` : `${orders.length} erasures`;
}

function keyOf({ person, enrolledOn }: { readonly person: string; readonly enrolledOn: string }): string {
	return `${enrolledOn} ${person}`;
}
