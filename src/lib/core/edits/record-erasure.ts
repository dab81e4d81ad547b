import { z } from 'zod';
import { date, id, word, words, entry } from '../document/fields';
import { type EntryOf, entriesOf, withEntries } from '../document/lists';
import type { RolloutDocument } from '../document/schema';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { type Result, ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';

type Template = EntryOf<'templates'>;

/** Records that a person's template was erased from one or several places. */
export default defineEdit({
	name: 'record-erasure',
	summary: 'Records that the template of a person was erased, from which places, when, by whom, with what evidence.',
	params: entry({
		person: id,
		enrolledOn: date.optional().describe('Which of several templates; the one with places left where left out'),
		places: z
			.array(word, { error: 'a list of places' })
			.min(1, { error: 'at least one place' })
			.optional()
			.describe('Every place that is left where left out'),
		on: date,
		by: words.nullish(),
		evidence: words.nullish()
	}),
	apply(document, { person, enrolledOn, places, on, by, evidence }): Result<RolloutDocument> {
		const templates = entriesOf(document, 'templates');
		const index = templates.findLastIndex(
			(one) =>
				one.person === person && (enrolledOn === undefined ? placesLeft(one).length > 0 : one.enrolledOn === enrolledOn)
		);
		const template = templates[index];
		if (template === undefined) return refused([noTemplate(document, person, enrolledOn)]);
		if (document.privacy?.erasureRules?.secondPerson === true) {
			const expected =
				'a site without a second pair of eyes; here an erasure is confirmed by two people on a work order';
			return refused([fault(['person'], person, expected)]);
		}
		const left = placesLeft(template);
		const faults = (places ?? []).flatMap((place, at) => {
			if (left.includes(place)) return [];
			const expected =
				left.length === 0
					? 'a place where the template is left; it is erased everywhere'
					: `a place where the template is left: ${left.join(', ')}`;
			return [fault(['places', at], place, expected, nearestName(place, left))];
		});
		if (on < template.enrolledOn) {
			faults.push(fault(['on'], on, `a date on or after ${template.enrolledOn}, the day of enrollment`));
		}
		if (places === undefined && left.length === 0) {
			faults.push(fault(['person'], person, 'somebody with a template that is left somewhere'));
		}
		if (faults.length > 0) return refused(faults);
		const added = [...new Set(places ?? left)].map((from) => ({
			from,
			on,
			...((by ?? null) === null ? {} : { by }),
			...((evidence ?? null) === null ? {} : { evidence })
		}));
		const erased: Template = { ...template, erasures: [...(template.erasures ?? []), ...added] };
		return ok(withEntries(document, 'templates', templates.with(index, erased)));
	},
	happened: ({ on }) => [{ param: ['on'], on, what: 'an erasure' }],
	describe: ({ person, places, on }) =>
		`Erasure recorded: template of ${person}, ${places ? places.join(', ') : 'every place left'}, on ${on}`
});

/** Places not yet erased; an erasure dated before the enrollment empties nothing. */
function placesLeft({ storedOn, erasures, enrolledOn }: Template): readonly string[] {
	return storedOn.filter((place) => !(erasures ?? []).some((one) => one.from === place && one.on >= enrolledOn));
}

function noTemplate(document: RolloutDocument, person: string, enrolledOn: string | undefined): Fault {
	const ids = entriesOf(document, 'people').map((one) => one.id);
	if (!ids.includes(person)) return fault(['person'], person, 'the id of a person', nearestName(person, ids));
	if (enrolledOn === undefined) return fault(['person'], person, 'somebody with a template that is left somewhere');
	const dates = entriesOf(document, 'templates').flatMap((one) => (one.person === person ? [one.enrolledOn] : []));
	return fault(
		['enrolledOn'],
		enrolledOn,
		`the day of an enrollment of ${person}: ${dates.join(', ') || 'there is none'}`
	);
}
