import { redirect } from '@sveltejs/kit';
import { textIn } from '$lib/server/http/forms';
import type { RequestHandler } from './$types';

/** Sets the name under which changes are recorded on this computer; it grants nothing. */
export const POST: RequestHandler = async ({ request, cookies }) => {
	const form = await request.formData();
	const name = textIn(form, 'name') ?? 'site admin';
	cookies.set('doorwright-actor', name.slice(0, 80), {
		path: '/',
		maxAge: 365 * 86_400,
		httpOnly: true,
		secure: false
	});
	const back = textIn(form, 'back') ?? '/';
	redirect(303, back.startsWith('/') && !back.startsWith('//') ? back : '/');
};
