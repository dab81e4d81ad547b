import { error } from '@sveltejs/kit';
import { shownHead } from '$lib/core/document/verify-record';
import { erasureCertificates } from '$lib/core/privacy/certificate';
import { todayAt } from '$lib/server/clock';
import { rolloutOf } from '$lib/server/http/change';
import { recordHead } from '$lib/server/rollouts';
import { datesOf } from '$lib/server/views/retention';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { id, rollout } = rolloutOf(params);
	const today = todayAt(rollout.site.timeZone);
	const all = erasureCertificates(rollout, params.person, today);
	const enrolledOn = url.searchParams.get('enrolledOn');
	// The latest template that is gone; where none is, the one that is left tells what is missing.
	const certificate =
		all.find((one) => one.enrolledOn === enrolledOn) ?? all.find((one) => one.erasedOn !== null) ?? all[0];
	if (certificate === undefined) error(404, 'There is no template of this person on record.');
	const head = recordHead(id);
	const { places, ...rest } = certificate;
	return {
		today,
		certificate: { ...rest, places: places.map((place) => ({ ...place })) },
		governing: datesOf(rollout, certificate.retention)[0] ?? null,
		others: all.filter((one) => one !== certificate).map((one) => one.enrolledOn),
		site: rollout.site.name,
		head: head ? { shown: shownHead(head), hash: head.hash } : null
	};
};
