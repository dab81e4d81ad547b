import type { Outlook } from '$lib/core/answers/outlook';
import { nameOf } from '$lib/core/document/names';
import { change, rolloutOf } from '$lib/server/http/change';
import { numberIn } from '$lib/server/http/forms';
import { longWorkOf, startAction, stopAction } from '$lib/server/http/job-actions';
import { enrollmentModelOf } from '$lib/server/views/enrollment-model';
import type { Actions, PageServerLoad } from './$types';

const assumed = ['noShow', 'repeatVisit', 'failToEnroll', 'minutesSpread'] as const;

export const load: PageServerLoad = ({ params, url, depends }) => {
	depends('app:forecast');
	const open = rolloutOf(params);
	const { people, enrollment } = open.rollout;
	const { job, found } = longWorkOf<Outlook>(open, 'outlook', url);
	const { standings } = enrollmentModelOf(open.rollout);
	const waves = new Map(enrollment.waves.map((wave) => [wave.id, wave]));
	return {
		job,
		people: people.length,
		// Whoever declined gets another credential and is not waited for.
		everybody: people.filter(({ id }) => standings.get(id) !== 'declined').length,
		stations: enrollment.stations.length,
		assumptions: assumed.map((name) => ({ name, percent: Math.round(enrollment.assumptions[name] * 1e4) / 100 })),
		due: enrollment.waves.flatMap(({ id, name, enrollBy }) =>
			enrollBy === null ? [] : [{ name: name ?? id, date: enrollBy }]
		),
		waveNames: Object.fromEntries(enrollment.waves.map(({ id, name }) => [id, name ?? id])),
		stationNames: Object.fromEntries(enrollment.stations.map(({ id, name }) => [id, name ?? id])),
		// What was asked, not what was played out: work that is stopped early plays out fewer.
		asked: askedOf(found?.params),
		outlook: found && {
			...found,
			waves: found.value.waves.map((wave) => ({
				...wave,
				name: nameOf(enrollment.waves, wave.wave),
				enrollBy: waves.get(wave.wave)?.enrollBy ?? null
			}))
		}
	};
};

/** What the form begins with: what was asked last, else the usual. Confidence in percent. */
function askedOf(params: unknown): { readonly runs: number; readonly seed: number; readonly confidence: number } {
	const number = (name: string, usual: number): number => {
		const value: unknown = typeof params === 'object' && params !== null ? Reflect.get(params, name) : undefined;
		return typeof value === 'number' ? value : usual;
	};
	return {
		runs: number('runs', 2000),
		seed: number('seed', 1),
		confidence: Math.round(1000 * number('confidence', 0.9)) / 10
	};
}

/** Typed in percent; what is no number stays as it was typed, so that it is refused. */
function confidenceIn(form: FormData): number | string {
	const typed = numberIn(form, 'confidence') ?? 90;
	return typeof typed === 'number' ? Math.round(typed * 100) / 1e4 : typed;
}

export const actions: Actions = {
	start: startAction('outlook', (form) => ({
		runs: numberIn(form, 'runs') ?? 2000,
		seed: numberIn(form, 'seed') ?? 1,
		confidence: confidenceIn(form)
	})),
	stop: stopAction,
	assume: async (event) => {
		const form = await event.request.formData();
		// Shares are typed in percent. What is no number stays as it was typed, so that the schema refuses it.
		const shares = assumed.map((name): [string, number | string] => {
			const typed = numberIn(form, name);
			return [name, typeof typed === 'number' ? Math.round(typed * 100) / 1e4 : (typed ?? 0)];
		});
		return change(event, form, 'set-part', {
			part: 'enrollment.assumptions',
			value: Object.fromEntries<number | string>(shares)
		});
	}
};
