import type { PersonField } from '../fields';
import { enterpriseUrn, rolloutUrn } from './user-schemas';

/** Where a field of a person comes from: attributes in the order in which they are looked at; the first with a value is taken. */
export interface MappedField {
	readonly field: PersonField;
	readonly from: readonly { readonly urn?: string; readonly attribute: string }[];
	/** How it is read, for people. */
	readonly how: string;
}

const enterprise = (attribute: string) => ({ urn: enterpriseUrn, attribute });
const rollout = (attribute: string) => ({ urn: rolloutUrn, attribute });

/** What becomes of a user. The help sheet shows this table, and `person-of-user.ts` goes by it. */
export const mapping: readonly MappedField[] = [
	{
		field: 'id',
		from: [enterprise('employeeNumber'), { attribute: 'externalId' }, { attribute: 'userName' }],
		how: 'The first that has a value. Text: leading zeros stay. Once somebody is in the rollout, the id stays as it is.'
	},
	{
		field: 'name',
		from: [{ attribute: 'name.formatted' }, { attribute: 'name.givenName' }, { attribute: 'displayName' }],
		how: 'As written; without a formatted name the given name, a space and the family name; else the display name.'
	},
	{ field: 'department', from: [enterprise('department')], how: 'As the rollout writes it, where it knows it.' },
	{ field: 'job', from: [{ attribute: 'title' }], how: 'As written.' },
	{ field: 'email', from: [{ attribute: 'emails' }], how: 'The primary one, else the one for work, else the first.' },
	{ field: 'startsOn', from: [rollout('startsOn')], how: 'A date, as 2027-01-04.' },
	{
		field: 'leavesOn',
		from: [rollout('leavesOn')],
		how: 'A date; for a leaver the day on which the provider said so, if that is earlier.'
	},
	{ field: 'shiftPattern', from: [rollout('shiftPattern')], how: 'By id or name; one that is not there is a problem.' },
	{ field: 'workAreas', from: [rollout('workAreas')], how: 'By id or name, each.' },
	{ field: 'wave', from: [rollout('wave')], how: 'By id or name; one that is not there is a problem.' },
	{
		field: 'language',
		from: [{ attribute: 'preferredLanguage' }, { attribute: 'locale' }],
		how: 'The first language; as the rollout writes it, where it knows it.'
	}
];
