import { isLocalDate } from '../../calendar/local-date';
import { type DateField, type PersonField } from '../fields';
import type { ReadPerson } from '../people/read-people';
import type { Known } from '../people/read-values';
import { type RosterProblem, problem } from '../problem';
import type { RosterPerson, RosterValue } from '../roster-answer';
import { cellText } from '../values/cell-text';
import { isEmail } from '../values/email';
import { mapping } from './mapping';
import { type Json, type JsonObject, isObject } from './scim-result';
import { enterpriseUrn, rolloutUrn } from './user-schemas';

/** A user read as a person. The column of a problem is the attribute. */
export interface UserAsPerson extends ReadPerson {
	readonly problems: readonly RosterProblem[];
}

/**
 * The id that a user has as a person: employee number, else external id, else user name. Undefined where the one that is given
 * cannot be an id (longer than 64 characters, or with control characters).
 */
export function personIdOf(user: JsonObject): string | undefined {
	const enterprise = user[enterpriseUrn];
	const candidates = [isObject(enterprise) ? enterprise['employeeNumber'] : null, user['externalId'], user['userName']];
	const id = candidates.map(textOf).find((text) => text !== '');
	return id !== undefined && [...id].length <= 64 && !/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/u.test(id) ? id : undefined;
}

/** Whether a user is employed: `active` is not false. @source RFC 7643, section 4.1.1 leaves the meaning to the provider */
export function isActive(user: JsonObject): boolean {
	return user['active'] !== false;
}

/**
 * What a user says of its person, by the table of `mapping.ts`. An attribute without a value says nothing of its field. Values are
 * read by the rules for staff lists: what cannot be read is told and left out.
 */
export function personOfUser(user: JsonObject, id: string, row: number, known: Known): UserAsPerson {
	const problems: RosterProblem[] = [];
	const values: Partial<Record<PersonField, RosterValue>> = {};
	for (const { field } of mapping) {
		const value = field === 'id' ? undefined : readField(user, field, row, known, problems);
		if (value !== undefined) values[field] = value;
	}
	if (values.name === undefined) problems.push(problem('name-missing', { row, column: 'name', value: '' }));
	const { startsOn, leavesOn } = values;
	if (typeof startsOn === 'string' && typeof leavesOn === 'string' && leavesOn < startsOn) {
		const place = { row, column: 'leavesOn', value: leavesOn };
		problems.push(problem('leaves-before-start', place, startsOn, leavesOn));
	}
	return { row, person: { ...(values as Omit<RosterPerson, 'id'>), id }, unread: new Set<PersonField>(), problems };
}

function readField(
	user: JsonObject,
	field: PersonField,
	row: number,
	known: Known,
	problems: RosterProblem[]
): RosterValue | undefined {
	const rollout = isObject(user[rolloutUrn]) ? user[rolloutUrn] : {};
	switch (field) {
		case 'name':
			return nameOf(user);
		case 'job':
			return textOf(user['title']) || undefined;
		case 'email': {
			const email = emailOf(user);
			if (email === undefined || isEmail(email)) return email;
			problems.push(problem('email-invalid', { row, column: 'emails', value: email }));
			return undefined;
		}
		case 'startsOn':
		case 'leavesOn':
			return dateIn(rollout, field);
		case 'department': {
			const enterprise = user[enterpriseUrn];
			return knownValue('department', textOf(isObject(enterprise) ? enterprise['department'] : null));
		}
		case 'language':
			return knownValue('language', languageOf(user));
		case 'shiftPattern':
		case 'wave':
			return knownValue(field, textOf(rollout[field]));
		case 'workAreas': {
			const areas = listOf(rollout[field]).map(textOf);
			const read = areas.map((area) => knownValue(field, area));
			return areas.length === 0 || read.includes(undefined) ? undefined : [...new Set(read as string[])];
		}
		default:
			return undefined;
	}

	function dateIn(holder: JsonObject, of: DateField): string | undefined {
		const text = textOf(holder[of]);
		if (text === '' || isLocalDate(text)) return text || undefined;
		const why = 'Expected is a date that exists, as 2027-01-04.';
		problems.push(problem('date-invalid', { row, column: of, value: text }, why));
		return undefined;
	}

	function knownValue(of: keyof Known, text: string): string | undefined {
		if (text === '') return undefined;
		const among = known[of];
		const found = among.find(text);
		if (found !== undefined || !among.isAsked) return found ?? text;
		const nearest = among.nearest(text);
		const place = { row, column: of, value: text, nearest };
		problems.push(problem('value-unknown', place, among.one, among.keepsUnknown, nearest));
		return among.keepsUnknown ? text : undefined;
	}
}

function nameOf(user: JsonObject): string | undefined {
	const name = isObject(user['name']) ? user['name'] : {};
	const parts = [textOf(name['givenName']), textOf(name['familyName'])].filter((part) => part !== '').join(' ');
	return textOf(name['formatted']) || parts || textOf(user['displayName']) || undefined;
}

function emailOf(user: JsonObject): string | undefined {
	const emails = listOf(user['emails']).filter(isObject);
	const chosen =
		emails.find((one) => one['primary'] === true) ??
		emails.find((one) => textOf(one['type']).toLowerCase() === 'work') ??
		emails[0];
	return textOf(chosen?.['value']) || undefined;
}

/** The first of the languages that a user prefers: `de-AT, en;q=0.5` is `de-AT`. @source RFC 9110, section 12.5.4 */
function languageOf(user: JsonObject): string {
	const preferred = textOf(user['preferredLanguage']).split(/[,;]/)[0]?.trim() ?? '';
	const tag = preferred === '' || preferred === '*' ? textOf(user['locale']) : preferred;
	return tag.replaceAll('_', '-');
}

function textOf(value: Json | undefined): string {
	return typeof value === 'string' ? cellText(value) : '';
}

function listOf(value: Json | undefined): readonly Json[] {
	return Array.isArray(value) ? (value as readonly Json[]) : [];
}
