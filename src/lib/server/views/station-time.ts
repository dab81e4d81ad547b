import stationTime, { type StationTimeAnswer } from '$lib/core/answers/station-time';
import { counted, nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { placesFor } from '$lib/core/enrollment/station-time/places';
import type { Fault } from '$lib/core/kernel/fault';
import { ask } from '$lib/server/answers';
import type { OpenRollout } from '$lib/server/open-rollouts';
import { enrollmentModelOf } from './enrollment-model';
import { personOptions } from './person-options';

const perPage = 25;
const mostOpen = 10;

/** What the station time sheet shows for an address: `confidence` in percent, `class`, `visit`, `for` (a person to record) and `page`. */
export async function stationTimeView(open: OpenRollout, url: URL) {
	const { rollout } = open;
	const typed = url.searchParams.get('confidence')?.trim() ?? '';
	const asked = await ask(open, stationTime, typed === '' ? {} : { confidence: Number(typed) / 100 });
	const found = asked.ok ? asked : await ask(open, stationTime, {});
	if (!found.ok) throw new Error('the estimate without any parameter was refused');
	const classes = classRows(rollout, found.value);
	return {
		confidence: {
			typed: typed === '' ? String(Math.round(1000 * found.value.confidence) / 10) : typed,
			percent: Math.round(1000 * found.value.confidence) / 10,
			faults: asked.ok ? ([] as readonly Fault[]) : asked.faults
		},
		classes,
		chosenClass: classes.find(({ id }) => id === url.searchParams.get('class')) ?? null,
		shares: (['noShow', 'repeatVisit', 'failToEnroll'] as const).map((name) => ({ name, ...found.value[name] })),
		stations: found.value.stations.map((one) => ({
			...one,
			name: one.station === null ? 'Not told' : nameOf(rollout.enrollment.stations, one.station)
		})),
		published: found.value.published,
		far: found.value.far.map(({ of, captureClass, estimate, is, published }) => ({
			of,
			name: captureClass === undefined ? null : nameOf(rollout.enrollment.captureClasses, captureClass),
			estimate,
			is,
			published
		})),
		...visitRows(rollout, found.value, url)
	};
}

function classRows(rollout: Rollout, found: StationTimeAnswer) {
	const model = enrollmentModelOf(rollout);
	const { captureClasses, bookings, visits } = rollout.enrollment;
	const classOf = new Map(rollout.people.map(({ id, captureClass }) => [id, captureClass ?? captureClasses[0]?.id]));
	return found.classes.map((one) => {
		const entry = captureClasses.find(({ id }) => id === one.captureClass);
		return {
			...one,
			id: one.captureClass,
			name: nameOf(captureClasses, one.captureClass),
			parts: entry?.stages ?? null,
			waiting: rollout.people.filter(
				({ id }) => classOf.get(id) === one.captureClass && model.standings.get(id) === 'to-book'
			).length,
			/** Bookings that no longer fit once the minutes are those of the estimate. */
			booked: bookings.filter(
				({ person, minutes }) => classOf.get(person) === one.captureClass && minutes !== one.suggested
			).length,
			places: { planned: placesFor(model, one.planned), suggested: placesFor(model, one.suggested) },
			points: visits.flatMap(({ person, minutes, outcome }) =>
				minutes === null || outcome === 'no-show' || classOf.get(person) !== one.captureClass ? [] : [minutes]
			)
		};
	});
}

function visitRows(rollout: Rollout, found: StationTimeAnswer, url: URL) {
	const { visits, bookings, stations } = rollout.enrollment;
	const doubtful = new Set(found.classes.flatMap((one) => one.doubtful));
	const all = visits
		.map((visit, place) => ({
			...visit,
			place,
			isDoubtful: doubtful.has(place),
			name: nameOf(rollout.people, visit.person),
			stationName: visit.station === null ? '' : nameOf(stations, visit.station)
		}))
		.sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : b.place - a.place));
	const last = Math.max(1, Math.ceil(all.length / perPage));
	const page = Math.min(Math.max(1, Math.floor(Number(url.searchParams.get('page')) || 1)), last);
	const recorded = new Set(visits.map(({ person, on }) => `${on} ${person}`));
	const unrecorded = bookings
		.filter(({ person, start }) => !recorded.has(`${start.slice(0, 10)} ${person}`))
		.sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : 0));
	const meant = unrecorded.find(({ person }) => person === url.searchParams.get('for'));
	return {
		visits: all.slice((page - 1) * perPage, page * perPage),
		visitCount: all.length,
		page,
		perPage,
		chosenVisit: all.find(({ place }) => String(place) === url.searchParams.get('visit')) ?? null,
		/** What a new visit begins with: the appointment that was chosen, else station and date of the one recorded last. */
		blank: {
			person: meant?.person ?? '',
			station: meant?.station ?? visits.at(-1)?.station ?? '',
			on: meant?.start.slice(0, 10) ?? visits.at(-1)?.on ?? ''
		},
		unrecorded: unrecorded.slice(0, mostOpen).map(({ person, station, start }) => ({
			person,
			name: nameOf(rollout.people, person),
			station: nameOf(stations, station),
			start
		})),
		unrecordedText: counted(unrecorded.length, 'appointment'),
		people: personOptions(rollout.people),
		stationOptions: stations.map(({ id, name }) => ({ value: id, label: name ?? id }))
	};
}

export type StationTimeView = Awaited<ReturnType<typeof stationTimeView>>;
