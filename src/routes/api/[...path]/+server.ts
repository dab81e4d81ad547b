import { fault } from '$lib/core/kernel/fault';
import { refusal } from '$lib/server/api/respond';

/** Any other address of the API: told in its own form, where a page would be no use. */
export const fallback = ({ url }: { readonly url: URL }) =>
	refusal(404, [fault(['path'], url.pathname, 'an address of the API; /api/v1/openapi.json lists them')]);
