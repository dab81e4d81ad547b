import { redirect } from '@sveltejs/kit';
import { fault } from '$lib/core/kernel/fault';
import { shownAt, todayAt } from '$lib/server/clock';
import { refusedForm, rolloutOf } from '$lib/server/http/change';
import { isTicked, textIn } from '$lib/server/http/forms';
import { refuse } from '$lib/server/outcome';
import { directoryOf } from '$lib/server/scim/directory';
import { acceptDirectory, directoryProposal, setDirectoryAside } from '$lib/server/scim/takeover';
import { directorySettings, listTokens, makeToken, revokeToken, setDirectorySettings } from '$lib/server/scim/tokens';
import { identityView } from '$lib/server/views/identity';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const open = rolloutOf(params);
	const { timeZone } = open.rollout.site;
	const settings = directorySettings(open.id);
	const users = directoryOf(open.id);
	return {
		tokens: listTokens(open.id).map((token) => ({
			...token,
			createdAt: shownAt(timeZone, token.createdAt),
			usedAt: token.usedAt === null ? null : shownAt(timeZone, token.usedAt),
			revokedAt: token.revokedAt === null ? null : shownAt(timeZone, token.revokedAt)
		})),
		settings,
		base: `${settings.address ?? url.origin}/scim/v2/r/${encodeURIComponent(open.id)}`,
		users: users.filter(({ user }) => user !== null).length,
		setAside: users.filter(({ setAside, version }) => setAside === version).length,
		proposal: identityView(open, directoryProposal(open), todayAt(timeZone))
	};
};

export const actions: Actions = {
	make: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const made = makeToken(params.rollout, textIn(form, 'label') ?? '', locals.actor);
		// Not redirected: the token is shown in the answer to this form, and nowhere else ever again.
		return made.ok ? { token: made.value } : refusedForm(made, form, url);
	},
	revoke: async ({ request, params, locals, url }) => {
		const form = await request.formData();
		const done = revokeToken(params.rollout, Number(textIn(form, 'number')), locals.actor);
		return done.ok ? redirect(303, url.pathname) : refusedForm(done, form, url);
	},
	settings: async ({ request, params, url }) => {
		const form = await request.formData();
		const settings = { isApplied: textIn(form, 'handling') === 'apply', address: textIn(form, 'address') };
		const done = setDirectorySettings(params.rollout, settings);
		return done.ok ? redirect(303, url.pathname) : refusedForm(done, form, url);
	},
	accept: async ({ request, params, locals, url }) => {
		const open = rolloutOf(params);
		const form = await request.formData();
		const person = textIn(form, 'person');
		const view = identityView(open, directoryProposal(open), todayAt(open.rollout.site.timeZone));
		if (person === null && view.areManyLeaving && !isTicked(form, 'sure')) {
			const sure = fault(['sure'], null, 'a tick that so many leave: it was not set');
			const refusal = refuse('invalid', sure);
			return refusal.ok ? undefined : refusedForm(refusal, form, url);
		}
		const done = acceptDirectory(open, locals.actor, person === null ? undefined : new Set([person]));
		return done.ok ? redirect(303, url.pathname) : refusedForm(done, form, url);
	},
	aside: async ({ request, params, url }) => {
		const form = await request.formData();
		setDirectoryAside(params.rollout, textIn(form, 'person') ?? '');
		redirect(303, url.pathname);
	}
};
