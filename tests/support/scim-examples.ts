/**
 * The full user of RFC 7643, section 8.3 (enterprise user extension), as printed there, without photos, instant messaging
 * addresses and certificates, which are tested apart because they are not kept.
 * @source RFC 7643, section 8.3
 */
export const enterpriseUser = {
	schemas: ['urn:ietf:params:scim:schemas:core:2.0:User', 'urn:ietf:params:scim:schemas:extension:enterprise:2.0:User'],
	id: '2819c223-7f76-453a-919d-413861904646',
	externalId: '701984',
	userName: 'bjensen@example.com',
	name: {
		formatted: 'Ms. Barbara J Jensen, III',
		familyName: 'Jensen',
		givenName: 'Barbara',
		middleName: 'Jane',
		honorificPrefix: 'Ms.',
		honorificSuffix: 'III'
	},
	displayName: 'Babs Jensen',
	nickName: 'Babs',
	profileUrl: 'https://login.example.com/bjensen',
	emails: [
		{ value: 'bjensen@example.com', type: 'work', primary: true },
		{ value: 'babs@jensen.org', type: 'home' }
	],
	addresses: [
		{
			streetAddress: '100 Universal City Plaza',
			locality: 'Hollywood',
			region: 'CA',
			postalCode: '91608',
			country: 'USA',
			formatted: '100 Universal City Plaza\nHollywood, CA 91608 USA',
			type: 'work'
		},
		{
			streetAddress: '456 Hollywood Blvd',
			locality: 'Hollywood',
			region: 'CA',
			postalCode: '91608',
			country: 'USA',
			formatted: '456 Hollywood Blvd\nHollywood, CA 91608 USA',
			type: 'home'
		}
	],
	phoneNumbers: [
		{ value: '555-555-5555', type: 'work' },
		{ value: '555-555-4444', type: 'mobile' }
	],
	userType: 'Employee',
	title: 'Tour Guide',
	preferredLanguage: 'en-US',
	locale: 'en-US',
	timezone: 'America/Los_Angeles',
	active: true,
	password: 't1meMa$heen',
	'urn:ietf:params:scim:schemas:extension:enterprise:2.0:User': {
		employeeNumber: '701984',
		costCenter: '4130',
		organization: 'Universal Studios',
		division: 'Theme Park',
		department: 'Tour Operations',
		manager: {
			value: '26118915-6090-4610-87e4-49d8ca9f808d',
			$ref: '../Users/26118915-6090-4610-87e4-49d8ca9f808d',
			displayName: 'John Smith'
		}
	},
	meta: {
		resourceType: 'User',
		created: '2010-01-23T04:56:22Z',
		lastModified: '2011-05-13T04:42:34Z',
		version: 'W/"3694e05e9dff591"',
		location: 'https://example.com/v2/Users/2819c223-7f76-453a-919d-413861904646'
	}
} as const;
