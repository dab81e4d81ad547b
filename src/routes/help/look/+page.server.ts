import { redirect } from '@sveltejs/kit';
import { colorSetCookie, readColorSet } from '$lib/components/sheet/color-set';
import { ownPath } from './own-path';
import type { Actions } from './$types';

export const actions: Actions = {
	/** Remembers the colors on this computer and goes back to where they were chosen. */
	default: async ({ request, cookies }) => {
		const form = await request.formData();
		const chosen = readColorSet(form.get('set'));
		cookies.set(colorSetCookie, chosen, {
			path: '/',
			maxAge: 365 * 86_400,
			httpOnly: true,
			secure: false,
			sameSite: 'lax'
		});
		redirect(303, ownPath(form.get('next')) ?? '/help');
	}
};
