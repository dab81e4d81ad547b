import type { Attribute, Schema } from './attribute';
import type { JsonObject } from './scim-result';
import { mostPerPage } from './search';
import { enterpriseUrn, rolloutUrn, userSchemas, userUrn } from './user-schemas';

/** What clients may ask of the server before anything else. @source RFC 7644, section 4; RFC 7643, sections 5 to 7 */

/** The most bytes that a request may carry. */
export const mostScimBytes = 1_048_576;

/** What this server does. `base` is the address under which the client reaches it. */
export function serviceProviderConfig(base: string): JsonObject {
	return {
		schemas: ['urn:ietf:params:scim:schemas:core:2.0:ServiceProviderConfig'],
		patch: { supported: true },
		bulk: { supported: false, maxOperations: 0, maxPayloadSize: mostScimBytes },
		filter: { supported: true, maxResults: mostPerPage },
		changePassword: { supported: false },
		sort: { supported: true },
		etag: { supported: true },
		authenticationSchemes: [
			{
				type: 'oauthbearertoken',
				name: 'Bearer token',
				description: 'A token made on the sheet of the identity provider, sent as in RFC 6750.',
				specUri: 'https://www.rfc-editor.org/info/rfc6750',
				primary: true
			}
		],
		meta: { resourceType: 'ServiceProviderConfig', location: `${base}/ServiceProviderConfig` }
	};
}

/** The types of resources: users only. */
export function resourceTypes(base: string): readonly JsonObject[] {
	return [
		{
			schemas: ['urn:ietf:params:scim:schemas:core:2.0:ResourceType'],
			id: 'User',
			name: 'User',
			endpoint: '/Users',
			description: 'User Account',
			schema: userUrn,
			schemaExtensions: [
				{ schema: enterpriseUrn, required: false },
				{ schema: rolloutUrn, required: false }
			],
			meta: { location: `${base}/ResourceTypes/User`, resourceType: 'ResourceType' }
		}
	];
}

/** The schemas of users. */
export function schemas(base: string): readonly JsonObject[] {
	return userSchemas.map(({ id, name, description, attributes }: Schema) => ({
		schemas: ['urn:ietf:params:scim:schemas:core:2.0:Schema'],
		id,
		name,
		description,
		attributes: attributes.map(shown),
		meta: { resourceType: 'Schema', location: `${base}/Schemas/${id}` }
	}));
}

/** Text has capitals to speak of, other types have not. */
function shown({
	subAttributes,
	caseExact,
	canonicalValues,
	referenceTypes,
	uniqueness,
	...rest
}: Attribute): JsonObject {
	const hasCase = rest.type === 'string' || rest.type === 'reference';
	return {
		...rest,
		...(hasCase ? { caseExact, uniqueness } : { uniqueness }),
		...(canonicalValues ? { canonicalValues } : {}),
		...(rest.type === 'reference' ? { referenceTypes: referenceTypes ?? ['uri'] } : {}),
		...(subAttributes ? { subAttributes: subAttributes.map(shown) } : {})
	};
}
