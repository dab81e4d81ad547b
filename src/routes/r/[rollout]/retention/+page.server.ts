import { localDate, isLocalDate } from '$lib/core/calendar/local-date';
import { rulePacks } from '$lib/core/privacy/packs';
import { goLiveDisclosures } from '$lib/core/privacy/go-live-disclosure';
import { daysToActOn } from '$lib/core/privacy/working-days';
import { todayAt } from '$lib/server/clock';
import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { chosenIn, linesIn, numberIn, textIn } from '$lib/server/http/forms';
import { ledgerLines, placeName } from '$lib/server/views/retention';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const asked = url.searchParams.get('on') ?? '';
	const on = isLocalDate(asked) ? localDate(asked) : todayAt(rollout.site.timeZone);
	const { templates, holds, regimes, siteRules } = rollout.privacy;
	const lines = ledgerLines(rollout, on).map((line, place) => ({ ...line, place }));
	const place = (name: string) => url.searchParams.get(name);
	const template = templates[Number(place('template') ?? -1)] ?? null;
	return {
		on,
		isAskedWrong: asked !== '' && !isLocalDate(asked),
		lines,
		chosen: lines.find((line) => String(line.place) === place('template')) ?? null,
		template,
		erasures: (template?.erasures ?? []).map((one) => ({ ...one, place: placeName(rollout, one.from) })),
		holds: holds.map((hold, at) => ({ ...hold, at })),
		hold: holds.map((hold, at) => ({ ...hold, at })).find(({ at }) => String(at) === place('hold')) ?? null,
		regimes,
		siteRules,
		disclosures: goLiveDisclosures(rollout, daysToActOn(rollout.holidays.days)),
		packs: [...rulePacks.values()].map((pack) => ({
			id: pack.id,
			title: pack.title,
			covers: pack.covers,
			reviewedOn: pack.lastReviewed,
			cautions: pack.cautions,
			source: pack.source,
			isApplied: regimes.includes(pack.id)
		})),
		people: personOptions(rollout.people),
		places: [
			...new Set([
				...rollout.controllers.map(({ id }) => id),
				...rollout.enrollment.stations.map(({ id }) => id),
				...templates.flatMap(({ storedOn }) => storedOn)
			])
		]
	};
};

export const actions: Actions = {
	putTemplate: putAction('templates', (form) => ({
		person: textIn(form, 'person') ?? '',
		enrolledOn: textIn(form, 'enrolledOn') ?? '',
		lastUsedOn: textIn(form, 'lastUsedOn'),
		unneededSince: textIn(form, 'unneededSince'),
		storedOn: linesIn(form, 'storedOn')
	})),
	removeTemplate: removeAction('templates'),
	erase: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'record-erasure', {
			person: textIn(form, 'person') ?? '',
			enrolledOn: textIn(form, 'enrolledOn') ?? undefined,
			places: chosenIn(form, 'places'),
			on: textIn(form, 'on') ?? '',
			by: textIn(form, 'by'),
			evidence: textIn(form, 'evidence')
		});
	},
	putHold: putAction('holds', (form) => ({
		person: textIn(form, 'person') ?? '',
		from: textIn(form, 'from'),
		until: textIn(form, 'until'),
		reason: textIn(form, 'reason')
	})),
	removeHold: removeAction('holds'),
	setRegimes: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'set-part', { part: 'privacy.regimes', value: chosenIn(form, 'regimes') });
	},
	setSiteRules: async (event) => {
		const form = await event.request.formData();
		const value = {
			daysAfterLeaving: numberIn(form, 'daysAfterLeaving'),
			daysUnused: numberIn(form, 'daysUnused')
		};
		return change(event, form, 'set-part', { part: 'privacy.siteRules', value });
	}
};
