import { z } from 'zod';
import { canonicalJson } from '../document/canonical';
import { id, words, entry } from '../document/fields';
import { type EntryOf, entriesOf, stepsOf, withEntries } from '../document/lists';
import { consent } from '../document/schema-privacy';
import { fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { defineEdit } from './define-edit';

const { decision, on, notice, at, signature, drawing, reference, witness, alternative } = consent.shape;

/** Records one decision of one or several people about a notice; entries are added, never changed. */
export default defineEdit({
	name: 'record-consent',
	summary: 'Records what one or several people decided about a notice, on which day and how.',
	params: entry({
		people: z.array(id, { error: 'a list of ids of people' }).min(1, { error: 'at least one person' }),
		notice,
		decision,
		on,
		method: words.nullish(),
		at,
		signature,
		drawing,
		reference,
		witness,
		alternative
	}),
	apply(document, { people, notice, decision, on, method, ...signed }) {
		const kept = Object.fromEntries(Object.entries(signed).filter(([, value]) => value !== null));
		const present = entriesOf(document, 'consents');
		const ids = new Set(entriesOf(document, 'people').map((person) => person.id));
		const notices = entriesOf(document, 'notices').map((one) => one.id);
		const added: EntryOf<'consents'>[] = people.map((person) => ({
			person,
			notice,
			decision,
			on,
			...(method === undefined || method === null ? {} : { method }),
			...kept
		}));
		const wanted = new Set(people);
		const recorded = new Set(present.filter((one) => wanted.has(one.person)).map(canonicalJson));
		const hasGiven = new Set(
			present.filter((one) => one.decision === 'given' && one.on <= on).map(({ person }) => person)
		);
		const faults = added.flatMap((entry, index) => {
			const at = ['people', index];
			if (!ids.has(entry.person)) {
				return [fault(at, entry.person, 'the id of a person', nearestName(entry.person, ids))];
			}
			if (decision === 'withdrawn' && !hasGiven.has(entry.person)) {
				return [
					fault(at, entry.person, `somebody who has given consent on or before ${on}; one who never did has declined`)
				];
			}
			const isThere = recorded.has(canonicalJson(entry));
			recorded.add(canonicalJson(entry));
			return isThere ? [fault(at, entry.person, 'somebody for whom this very entry is not recorded yet')] : [];
		});
		if (!notices.includes(notice)) {
			faults.push(fault(['notice'], notice, 'the id of a notice', nearestName(notice, notices)));
		}
		return faults.length > 0 ? refused(faults) : ok(withEntries(document, 'consents', [...present, ...added]));
	},
	placed({ people }, after) {
		const count = entriesOf(after, 'consents').length;
		const fields = ['on', 'decision', 'notice', 'at', 'signature', 'drawing'];
		return people.flatMap((_, index) =>
			fields.map((field) => ({ param: [field], at: [...stepsOf('consents'), count - people.length + index, field] }))
		);
	},
	describe({ people, decision, on }) {
		const who = people.length === 1 ? `of ${people[0]}` : `of ${people.length} people`;
		return `Consent entry ${who} recorded: ${decision} on ${on}`;
	}
});
