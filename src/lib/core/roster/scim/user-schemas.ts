import { type Attribute, type Schema, attribute, complex, several } from './attribute';

export const userUrn = 'urn:ietf:params:scim:schemas:core:2.0:User';
export const enterpriseUrn = 'urn:ietf:params:scim:schemas:extension:enterprise:2.0:User';
/** Ours, in the form for private use: what a rollout needs and the standard has no attribute for. */
export const rolloutUrn = 'urn:x-doorwright:params:scim:schemas:extension:rollout:1.0:User';

/** Attributes of every resource. @source RFC 7643, section 3.1 */
export const commonAttributes: readonly Attribute[] = [
	attribute('schemas', 'The URNs of the schemas that the resource uses.', {
		type: 'reference',
		multiValued: true,
		caseExact: true,
		returned: 'always',
		mutability: 'readOnly'
	}),
	attribute('id', 'Given out here, never again.', {
		caseExact: true,
		mutability: 'readOnly',
		returned: 'always',
		uniqueness: 'server'
	}),
	attribute('externalId', 'The id that the identity provider has for the user.', { caseExact: true }),
	complex(
		'meta',
		'What is known of the resource itself.',
		[
			attribute('resourceType', 'Its type.', { caseExact: true, mutability: 'readOnly' }),
			attribute('created', 'When it was made.', { type: 'dateTime', mutability: 'readOnly' }),
			attribute('lastModified', 'When it last changed.', { type: 'dateTime', mutability: 'readOnly' }),
			attribute('location', 'Its address.', { type: 'reference', caseExact: true, mutability: 'readOnly' }),
			attribute('version', 'Its entity tag.', { caseExact: true, mutability: 'readOnly' })
		],
		{ mutability: 'readOnly' }
	)
];

const address = [
	attribute('formatted', 'The whole address.'),
	attribute('streetAddress', 'Street and number.'),
	attribute('locality', 'City.'),
	attribute('region', 'State or region.'),
	attribute('postalCode', 'Postal code.'),
	attribute('country', 'Country, as a code of ISO 3166-1 alpha 2.')
];
const display = attribute('display', 'The value as it is shown.');

/** The user as the standard has it, without what is not kept (see `passedOver`). @source RFC 7643, sections 4.1 and 8.7.1 */
export const userSchema: Schema = {
	id: userUrn,
	name: 'User',
	description: 'User Account',
	attributes: [
		attribute('userName', 'The name that the user signs in with.', { required: true, uniqueness: 'server' }),
		complex('name', 'The parts of the name.', [
			attribute('formatted', 'The full name as it is shown.'),
			attribute('familyName', 'Family name.'),
			attribute('givenName', 'Given name.'),
			attribute('middleName', 'Middle names.'),
			attribute('honorificPrefix', 'Title before the name.'),
			attribute('honorificSuffix', 'Suffix after the name.')
		]),
		attribute('displayName', 'The name as it is shown.'),
		attribute('nickName', 'How the user is addressed.'),
		attribute('profileUrl', 'A page about the user.', { type: 'reference', referenceTypes: ['external'] }),
		attribute('title', 'What the user works as.'),
		attribute('userType', 'How the user belongs to the organization.'),
		attribute('preferredLanguage', 'Language, as in RFC 9110, section 12.5.4.'),
		attribute('locale', 'Language and region, as in BCP 47.'),
		attribute('timezone', 'Time zone, as a name of the IANA database.'),
		attribute('active', 'Whether the user is employed; false is a leaver.', { type: 'boolean' }),
		several('emails', 'E-mail addresses.', [attribute('value', 'The address.'), display], ['work', 'home', 'other']),
		several(
			'phoneNumbers',
			'Phone numbers.',
			[attribute('value', 'The number.'), display],
			['work', 'home', 'mobile', 'fax', 'pager', 'other']
		),
		several('addresses', 'Postal addresses.', address, ['work', 'home', 'other'])
	]
};

/** @source RFC 7643, sections 4.3 and 8.7.1 */
export const enterpriseSchema: Schema = {
	id: enterpriseUrn,
	name: 'EnterpriseUser',
	description: 'Enterprise User',
	attributes: [
		attribute('employeeNumber', 'The number that the organization has for the user.'),
		attribute('costCenter', 'Cost center.'),
		attribute('organization', 'Organization.'),
		attribute('division', 'Division.'),
		attribute('department', 'Department.'),
		complex('manager', 'The manager of the user.', [
			attribute('value', 'The id of the manager.', { caseExact: true }),
			attribute('$ref', 'The address of the manager.', {
				type: 'reference',
				referenceTypes: ['User'],
				caseExact: true
			}),
			attribute('displayName', 'The name of the manager.')
		])
	]
};

export const rolloutSchema: Schema = {
	id: rolloutUrn,
	name: 'RolloutUser',
	description: 'What a rollout needs to know of a person beside the core and the enterprise attributes.',
	attributes: [
		attribute('startsOn', 'First day employed, as 2027-01-04.'),
		attribute('leavesOn', 'Last day employed, as 2027-01-04.'),
		attribute('shiftPattern', 'Shift pattern, by its id or name in the rollout.'),
		attribute('wave', 'Wave, by its id or name in the rollout.'),
		attribute('workAreas', 'Areas that must be reached during shifts, by id or name.', { multiValued: true })
	]
};

export const userSchemas: readonly Schema[] = [userSchema, enterpriseSchema, rolloutSchema];

/**
 * Attributes of the standard that are not kept: they are of no use here, or must not lie here. What arrives of them is passed
 * over without a fault, since identity providers send them by default.
 */
export const passedOver: ReadonlySet<string> = new Set(
	['password', 'ims', 'photos', 'groups', 'entitlements', 'roles', 'x509Certificates'].map((name) => name.toLowerCase())
);
