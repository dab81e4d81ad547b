import { z } from 'zod';
import { date, entry, id, oneOf, text, word } from '../document/fields';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';
import {
	type WrittenOrder,
	type WrittenTemplate,
	isSamePerson,
	ordersWithTemplates,
	toldOrders,
	withReplaced
} from './support/erasure-order';

/** The second pair of eyes on places that were reported as erased. */
export default defineEdit({
	name: 'second-erasure',
	summary:
		'A second person confirms places of work orders that were reported as erased, or sends them back. Only then do they count as erased.',
	params: entry({
		orders: z.array(id, { error: 'a list of ids of work orders' }).min(1, { error: 'at least one work order' }),
		places: z.array(word, { error: 'a list of places' }).min(1, { error: 'at least one place' }),
		decision: oneOf(['confirmed', 'sent-back']),
		on: date,
		by: text('who has looked at it', (value) => value.trim() !== '')
	}),
	apply(document, { orders, places, decision, on, by }) {
		const found = ordersWithTemplates(document, orders);
		if (!found.ok) return found;
		const reported = [...new Set(found.value.flatMap(({ order }) => (order.reports ?? []).map(({ from }) => from)))];
		const faults: Fault[] = places.flatMap((place, at) => {
			if (reported.includes(place)) return [];
			const expected = `a place that was reported as erased: ${reported.join(', ') || 'there is none'}`;
			return [fault(['places', at], place, expected, nearestName(place, reported))];
		});
		const ordersAfter = new Map<WrittenOrder, WrittenOrder>();
		const templatesAfter = new Map<WrittenTemplate, WrittenTemplate>();
		for (const { order, template } of found.value) {
			const seen = (order.reports ?? []).filter(({ from }) => places.includes(from));
			for (const report of seen) {
				if (isSamePerson(report.by, by)) {
					faults.push(fault(['by'], by, `somebody else than ${report.by}, who reported ${report.from} of ${order.id}`));
				}
				if (on < report.on) {
					faults.push(fault(['on'], on, `${report.on} or later: ${report.from} of ${order.id} was erased on that day`));
				}
			}
			if (seen.length === 0) continue;
			const reports = (order.reports ?? []).filter((one) => !seen.includes(one));
			ordersAfter.set(order, { ...order, reports });
			if (decision === 'sent-back') continue;
			const erasures = seen.map((one) => ({ ...one, secondBy: by.trim(), secondOn: on }));
			templatesAfter.set(template, { ...template, erasures: [...(template.erasures ?? []), ...erasures] });
		}
		return faults.length > 0 ? refused(faults) : ok(withReplaced(document, ordersAfter, templatesAfter));
	},
	happened: ({ on }) => [{ param: ['on'], on, what: 'the second look at an erasure' }],
	describe: ({ orders, places, decision, on }) =>
		`${toldOrders(orders)} at ${places.join(', ')} ${decision === 'confirmed' ? 'confirmed by a second person' : 'sent back'} on ${on}`
});
