import { mapping } from '$lib/core/roster/scim/mapping';
import { mostPerPage } from '$lib/core/roster/scim/search';
import { passedOver, userSchemas } from '$lib/core/roster/scim/user-schemas';
import { usualAllowance } from '$lib/server/scim/rate';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({
	mapping: mapping.map(({ field, from, how }) => ({
		field,
		from: from.map(({ urn, attribute }) => (urn === undefined ? attribute : `${urn}:${attribute}`)),
		how
	})),
	schemas: userSchemas.map(({ id, attributes }) => ({ id, attributes: attributes.map(({ name }) => name) })),
	notKept: [...passedOver],
	mostPerPage,
	allowance: usualAllowance
});
