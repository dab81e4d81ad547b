import { openApi } from '$lib/server/api/openapi';
import { onlyTakes } from '$lib/server/api/respond';

/** The description of the API. */
export const GET = async () => Response.json(await openApi('1'));

export const fallback = onlyTakes('GET');
