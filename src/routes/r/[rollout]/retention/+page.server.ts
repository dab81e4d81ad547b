import { localDate, isLocalDate } from '$lib/core/calendar/local-date';
import { rulePacks } from '$lib/core/privacy/packs';
import { goLiveDisclosures } from '$lib/core/privacy/go-live-disclosure';
import { daysToActOn } from '$lib/core/privacy/working-days';
import { todayAt } from '$lib/server/clock';
import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { chosenIn, linesIn, numberIn, textIn } from '$lib/server/http/forms';
import { datesOf, fallingDue, ledgerLines } from '$lib/server/views/retention';
import { monthFigures } from '$lib/core/privacy/month-figures';
import { erasureOrders, templatePlaceName } from '$lib/core/privacy/erasure-orders';
import { projectRetention } from '$lib/core/privacy/projection';
import { ruleName, sourceOf, standingOf } from '$lib/core/privacy/define-pack';
import { personOptions } from '$lib/server/views/person-options';
import type { Actions, PageServerLoad } from './$types';

const states = ['overdue', 'due', 'held', 'kept', 'erased'];
const perPage = 200;
/** More than these would make the picture heavy; the table and the figures tell of them. */
const mostDrawn = 2000;

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const asked = url.searchParams.get('on') ?? '';
	const on = isLocalDate(asked) ? localDate(asked) : todayAt(rollout.site.timeZone);
	const { templates, holds, regimes, siteRules } = rollout.privacy;
	const lines = ledgerLines(rollout, on).map((line, place) => ({ ...line, place }));
	const place = (name: string) => url.searchParams.get(name);
	const template = templates[Number(place('template') ?? -1)] ?? null;
	const chosen = lines.find((line) => String(line.place) === place('template')) ?? null;
	const supposed = { leaves: place('leaves') ?? '', withdraws: place('withdraws') ?? '' };
	const given = Object.values(supposed).filter((text) => text !== '');
	const isSupposedWrong = !given.every(isLocalDate);
	const projected =
		template === null || given.length === 0 || isSupposedWrong
			? []
			: projectRetention(rollout, template.person, on, {
					...(supposed.leaves === '' ? {} : { leavesOn: localDate(supposed.leaves) }),
					...(supposed.withdraws === '' ? {} : { withdrawsOn: localDate(supposed.withdraws) })
				});
	const sorted = lines.toSorted(
		(a, b) => states.indexOf(a.state) - states.indexOf(b.state) || ((a.eraseBy ?? '9') < (b.eraseBy ?? '9') ? -1 : 1)
	);
	const page = Math.max(1, Number(place('page')) || 1);
	return {
		on,
		isAskedWrong: asked !== '' && !isLocalDate(asked),
		lines: sorted.slice((page - 1) * perPage, page * perPage),
		drawn: sorted.length > mostDrawn ? [] : lines,
		count: lines.length,
		page,
		perPage,
		pages: Math.max(1, Math.ceil(lines.length / perPage)),
		chosen: chosen && { ...chosen, dates: datesOf(rollout, chosen) },
		supposed,
		isSupposedWrong,
		projected: projected.find(({ now }) => now.enrolledOn === template?.enrolledOn) ?? null,
		month: monthFigures(rollout, on),
		reminders: fallingDue(lines, on).map(({ within, lines: due }) => ({
			within,
			count: due.length,
			lines: due.slice(0, 20)
		})),
		needsSecond: rollout.privacy.erasureRules.secondPerson,
		openOrders: erasureOrders(rollout, on).filter(({ doneOn }) => doneOn === null).length,
		template,
		erasures: (template?.erasures ?? []).map((one) => ({ ...one, place: templatePlaceName(rollout, one.from) })),
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
			sitePeriodRequired: pack.sitePeriodRequired,
			rules: pack.rules.map((rule) => ({
				name: ruleName(pack, rule),
				title: rule.title,
				source: sourceOf(rule),
				standings: rule.triggers.map((trigger) => ({ trigger, standing: standingOf(rule, trigger) })),
				claims: rule.claims.map(({ standing, about }) => ({ standing, about })),
				cautions: rule.cautions
			})),
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
