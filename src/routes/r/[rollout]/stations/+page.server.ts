import { change, rolloutOf } from '$lib/server/http/change';
import { putAction, removeAction } from '$lib/server/http/entry-actions';
import { linesIn, linesOf, numberIn, textIn } from '$lib/server/http/forms';
import { openingLines, readOpenings } from '$lib/server/views/openings';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params, url }) => {
	const { rollout } = rolloutOf(params);
	const { enrollment, people, areas } = rollout;
	const { stations, waves, captureClasses, walks, awayLimits, gridMinutes, assumptions } = enrollment;
	const at = (name: string) => url.searchParams.get(name);
	const placed = <T>(entries: readonly T[], name: string) => {
		const place = at(name);
		return place === null || entries[Number(place)] === undefined ? null : Number(place);
	};
	return {
		gridMinutes,
		assumptions,
		stations: stations.map((station) => ({ ...station, openText: openingLines(station.open) })),
		waves: waves.map((wave) => ({ ...wave, people: people.filter((person) => person.wave === wave.id).length })),
		captureClasses: captureClasses.map((one, place) => ({
			...one,
			people: people.filter((person) => (person.captureClass ?? (place === 0 ? one.id : null)) === one.id).length
		})),
		walks: walks.map((walk, place) => ({ ...walk, place })),
		awayLimits: awayLimits.map((limit, place) => ({ ...limit, place })),
		areas: areas.map(({ id, name }) => ({ value: id, label: name ?? id })),
		departments: [...new Set(people.flatMap(({ department }) => department ?? []))].sort(),
		needs: [...new Set(people.flatMap(({ needs }) => needs))].sort(),
		chosen: {
			station: at('station'),
			wave: at('wave'),
			captureClass: at('class'),
			walk: placed(walks, 'walk'),
			limit: placed(awayLimits, 'limit')
		}
	};
};

export const actions: Actions = {
	putStation: putAction('stations', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		area: textIn(form, 'area') ?? '',
		lanes: numberIn(form, 'lanes'),
		turnoverMinutes: numberIn(form, 'turnoverMinutes'),
		serves: linesIn(form, 'serves'),
		open: readOpenings(linesOf(form, 'open'))
	})),
	removeStation: removeAction('stations'),
	putWave: putAction('waves', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		enrollBy: textIn(form, 'enrollBy'),
		goLive: textIn(form, 'goLive')
	})),
	removeWave: removeAction('waves'),
	putClass: putAction('captureClasses', (form) => ({
		id: textIn(form, 'id') ?? '',
		name: textIn(form, 'name'),
		minutes: numberIn(form, 'minutes') ?? ''
	})),
	removeClass: removeAction('captureClasses'),
	putWalk: putAction('walks', (form) => ({
		between: [textIn(form, 'from') ?? '', textIn(form, 'to') ?? ''],
		minutes: numberIn(form, 'minutes')
	})),
	removeWalk: removeAction('walks'),
	putLimit: putAction('awayLimits', (form) => ({
		department: textIn(form, 'department') ?? '',
		maxAway: numberIn(form, 'maxAway')
	})),
	removeLimit: removeAction('awayLimits'),
	setGrid: async (event) => {
		const form = await event.request.formData();
		return change(event, form, 'set-part', { part: 'enrollment.gridMinutes', value: numberIn(form, 'gridMinutes') });
	},
	setAssumptions: async (event) => {
		const form = await event.request.formData();
		const value = Object.fromEntries(
			['noShow', 'repeatVisit', 'failToEnroll', 'minutesSpread'].map((name) => [name, numberIn(form, name) ?? 0])
		);
		return change(event, form, 'set-part', { part: 'enrollment.assumptions', value });
	}
};
