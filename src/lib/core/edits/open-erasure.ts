import { z } from 'zod';
import { date, entry, id, word, words } from '../document/fields';
import { type EntryOf, entriesOf, withEntries } from '../document/lists';
import { type Fault, fault } from '../kernel/fault';
import { groupBy } from '../kernel/group-by';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { placesWithCopies } from '../privacy/place-copies';
import { defineEdit } from './define-edit';
import { type WrittenTemplate, heldOn, isErasedAt } from './support/erasure-order';

/** Opens a work order for each of several people: their template is to be erased at every place that holds it. */
export default defineEdit({
	name: 'open-erasure',
	summary:
		'Opens a work order for each person, to erase the template everywhere. Backups and readers that copy a place on record are added to where it is stored, so that it counts as erased only when they are done too.',
	params: entry({
		people: z.array(id, { error: 'a list of ids of people' }).min(1, { error: 'at least one person' }),
		on: date,
		by: words.nullish(),
		reason: words.nullish(),
		places: z.array(word, { error: 'a list of places' }).optional().describe('Further places that hold it')
	}),
	apply(document, { people, on, by, reason, places }) {
		const templates = entriesOf(document, 'templates');
		const templatesOf = groupBy(templates, (one) => one.person);
		const ids = new Set(entriesOf(document, 'people').map((one) => one.id));
		const held = heldOn(document, on);
		const orders = entriesOf(document, 'erasureOrders');
		const openOrders = new Map(orders.map((one) => [`${one.enrolledOn} ${one.person}`, one.id]));
		const copies = entriesOf(document, 'templatePlaces');
		const faults: Fault[] = [];
		const after = new Map<WrittenTemplate, WrittenTemplate>();
		let number = Math.max(0, ...orders.map((one) => Number(/^E-(\d{1,12})$/.exec(one.id)?.[1] ?? 0)));
		const added = [...new Set(people)].flatMap((person, place): EntryOf<'erasureOrders'>[] => {
			const at = ['people', place];
			const template = (templatesOf.get(person) ?? []).findLast((one) =>
				one.storedOn.some((stored) => !isErasedAt(one, stored))
			);
			if (template === undefined) {
				faults.push(
					ids.has(person)
						? fault(at, person, 'somebody with a template that is left somewhere')
						: fault(at, person, 'the id of a person', nearestName(person, [...ids]))
				);
				return [];
			}
			const { enrolledOn } = template;
			const open = openOrders.get(`${enrolledOn} ${person}`);
			if (open !== undefined) faults.push(fault(at, person, `a template without a work order; ${open} is about it`));
			if (held.has(person))
				faults.push(fault(at, person, `somebody without a hold on ${on}: nothing is erased while it lasts`));
			if (on < enrolledOn) faults.push(fault(['on'], on, `${enrolledOn} or later: ${person} was enrolled on that day`));
			const storedOn = placesWithCopies([...template.storedOn, ...(places ?? [])], copies);
			if (storedOn.length > new Set(template.storedOn).size) after.set(template, { ...template, storedOn });
			number++;
			return [
				{
					id: `E-${number}`,
					person,
					enrolledOn,
					openedOn: on,
					...(by ? { openedBy: by } : {}),
					...(reason ? { reason } : {})
				}
			];
		});
		if (faults.length > 0) return refused(faults);
		const told =
			after.size === 0
				? document
				: withEntries(
						document,
						'templates',
						templates.map((one) => after.get(one) ?? one)
					);
		return ok(withEntries(told, 'erasureOrders', [...orders, ...added]));
	},
	happened: ({ on }) => [{ param: ['on'], on, what: 'the opening of a work order' }],
	describe: ({ people, on }) =>
		people.length === 1
			? `Erasure work order opened: template of ${people[0] ?? ''}, on ${on}`
			: `${new Set(people).size} erasure work orders opened on ${on}`
});
