import type { Person } from '../document/schema';

/** The fields of a person that a roster can fill, in the order of the document. */
export const personFields = [
	'id',
	'name',
	'department',
	'job',
	'email',
	'startsOn',
	'leavesOn',
	'shiftPattern',
	'workAreas',
	'wave',
	'captureClass',
	'needs',
	'language'
] as const satisfies readonly (keyof Person)[];

export type PersonField = (typeof personFields)[number];

/** What a column of a roster can hold: a field of a person, or one part of the name. */
export const columnFields = [...personFields, 'givenName', 'familyName'] as const;

export type ColumnField = (typeof columnFields)[number];

/** The fields that hold a date. */
export const dateFields = ['startsOn', 'leavesOn'] as const;

export type DateField = (typeof dateFields)[number];

/** True for a field that holds a date. */
export function isDateField(field: ColumnField): field is DateField {
	return field === 'startsOn' || field === 'leavesOn';
}

/** True for a field that holds a list of words. */
export function isListField(field: string): field is 'workAreas' | 'needs' {
	return field === 'workAreas' || field === 'needs';
}
