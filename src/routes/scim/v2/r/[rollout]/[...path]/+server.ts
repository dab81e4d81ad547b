import { serveScim } from '$lib/server/scim/serve';
import type { RequestHandler } from './$types';

/** Identity providers, by SCIM 2.0: every method and address is judged in one place. */
const handle: RequestHandler = ({ request, url, params }) => serveScim(request, url, params.rollout, params.path);

export { handle as GET, handle as POST, handle as PUT, handle as PATCH, handle as DELETE, handle as fallback };
