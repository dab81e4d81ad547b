import { type LocalDate, dateOf, epochDayOf, plusDays } from '../../calendar/local-date';
import { nameOf, personName } from '../../document/names';
import type { Station } from '../../document/schema';
import { putAwayLimit, putBooking, putStation, putWave } from './entry-change';
import type { LeverTerms, RawLever } from './lever';
import { type Profile, mostDaysLate } from './presence';
import { taking } from './price';

/** Levers that change one entry otherwise than by opening it longer: lanes, limits, due dates, needs, fixed bookings. */
export function entryLevers(terms: LeverTerms): RawLever[] {
	return [...moreLanes(terms), ...higherLimit(terms), ...laterDates(terms), ...moreServing(terms), ...letMove(terms)];
}

function stationOf(rollout: { enrollment: { stations: readonly Station[] } }, id: string): Station | undefined {
	return rollout.enrollment.stations.find((one) => one.id === id);
}

function moreLanes({ model, profiles, minutesMissing, missing }: LeverTerms): RawLever[] {
	return model.stations.flatMap(({ station, serves, stretches }): RawLever[] => {
		const isServed = ({ needs }: Profile['person']): boolean => needs.every((need) => serves.has(need));
		if (!profiles.some(({ person }) => isServed(person)) || stretches.length === 0) return [];
		return [
			{
				kind: 'one-more-lane',
				key: `lane ${station.id}`,
				most: Math.min(20, missing.length),
				reach: profiles.reduce((sum, one) => sum + (isServed(one.person) ? one.missing : 0), 0),
				minutes: () => minutesMissing,
				takes: (amount) => taking({ installerDays: amount, stationMinutes: minutesMissing }),
				change(given, amount) {
					const own = stationOf(given, station.id);
					return own && [putStation({ ...own, lanes: own.lanes + amount })];
				},
				does: (amount) =>
					`Set up ${amount === 1 ? 'one more lane' : `${amount} more lanes`} at ${nameOf(model.rollout.enrollment.stations, station.id)}, ${station.lanes + amount} in all`
			}
		];
	});
}

/** Raises every limit of the department that stands below the amount: the least of them binds. */
function higherLimit({ model, shortfall, profiles }: LeverTerms): RawLever[] {
	const { awayLimits, stations } = model.rollout.enrollment;
	const departments = new Set(profiles.flatMap(({ person, missing }) => (missing > 0 ? [person.department] : [])));
	if (shortfall.department !== undefined) departments.add(shortfall.department);
	const minutesAway = profiles.reduce((sum, { person, minutes, missing }) => {
		const walks = stations.map(({ area }) => model.walkOf(person, area));
		const walk = walks.reduce((least, one) => Math.min(least, one), Infinity) / 60;
		return sum + missing * (minutes + 2 * (walk === Infinity ? 0 : walk));
	}, 0);
	return [...departments].flatMap((department): RawLever[] => {
		const maxAway = department === null ? undefined : model.maxAwayByDepartment.get(department);
		if (department === null || maxAway === undefined) return [];
		const size = model.rollout.people.filter((person) => person.department === department).length;
		if (size <= maxAway) return [];
		return [
			{
				kind: 'away-limit',
				key: `away ${department}`,
				most: Math.min(size - maxAway, 200),
				reach: size,
				minutes: () => Math.ceil(minutesAway),
				takes: (amount) => taking({ awayMinutes: amount * minutesAway }),
				change: (given, amount) =>
					awayLimits.flatMap((limit, place) => {
						const own = given.enrollment.awayLimits[place];
						const isLow = limit.department === department && limit.maxAway !== null && limit.maxAway < maxAway + amount;
						return own && isLow ? [putAwayLimit(place, { ...own, maxAway: maxAway + amount })] : [];
					}),
				does: (amount) => `Let ${maxAway + amount} of ${department} be away at once, in place of ${maxAway}`
			}
		];
	});
}

function laterDates({ model, profiles }: LeverTerms): RawLever[] {
	const { waves } = model.rollout.enrollment;
	const concerned = new Set(profiles.map(({ person }) => person.wave));
	return waves.flatMap((wave): RawLever[] => {
		const { enrollBy } = wave;
		if (!concerned.has(wave.id) || enrollBy === null || !model.openDays) return [];
		// A night stretch ends on the date after the one that it belongs to.
		const most = Math.min(model.openDays.until + 1 - epochDayOf(enrollBy), mostDaysLate);
		const dateAfter = (amount: number): LocalDate => dateOf(plusDays(epochDayOf(enrollBy), amount));
		if (most < 1) return [];
		return [
			{
				kind: 'due-date',
				key: `due ${wave.id}`,
				most,
				reach: profiles.reduce((sum, one) => sum + (one.person.wave === wave.id ? one.missing : 0), 0),
				minutes: (amount) => amount * 1440,
				takes: (amount) => taking({ installerDays: amount }),
				change: (given, amount) => {
					const own = given.enrollment.waves.find((one) => one.id === wave.id);
					if (!own) return undefined;
					const isThere = own.enrollBy === null || own.enrollBy >= dateAfter(amount);
					return isThere ? [] : [putWave({ ...own, enrollBy: dateAfter(amount) })];
				},
				does: (amount) => laterText(nameOf(waves, wave.id), enrollBy, dateAfter(amount), wave.goLive)
			}
		];
	});
}

/** A due date moved, in words; past the go-live is said, since doors will then ask people who have no template. */
export function laterText(wave: string, before: string, after: string, goLive: string | null): string {
	const warning = goLive !== null && after >= goLive ? ` (its go-live is ${goLive})` : '';
	return `Let ${wave} be enrolled until ${after} in place of ${before}${warning}`;
}

/** For each set of needs of somebody, each station that lacks some of them. */
function moreServing({ model, profiles }: LeverTerms): RawLever[] {
	const levers = new Map<string, RawLever>();
	for (const { person } of profiles) {
		for (const { station, serves } of model.stations) {
			const lacking = [...new Set(person.needs)].filter((need) => !serves.has(need)).sort();
			if (lacking.length === 0) continue;
			levers.set(JSON.stringify([station.id, lacking]), {
				kind: 'serve-need',
				key: `serve ${JSON.stringify([station.id, lacking])}`,
				most: 1,
				reach: 1,
				minutes: () => 0,
				takes: () => taking({ installerDays: lacking.length }),
				change(given) {
					const own = stationOf(given, station.id);
					return own && [putStation({ ...own, serves: [...new Set([...own.serves, ...lacking])] })];
				},
				does: () => serveText(lacking, nameOf(model.rollout.enrollment.stations, station.id))
			});
		}
	}
	return [...levers.values()];
}

export function serveText(needs: readonly string[], station: string): string {
	return `Serve ${needs.join(' and ')} also at ${station}`;
}

/** A fixed booking of the shortfall's own people that breaks a rule, and fixed bookings that take the time they could use. */
function letMove({ model, shortfall, missing, broken }: LeverTerms): RawLever[] {
	const { bookings, stations } = model.rollout.enrollment;
	const own = new Set(missing.filter((id) => broken.has(id)));
	const useful = new Set(shortfall.stretches.map(({ station }) => station));
	const levers = bookings.flatMap((booking, place): RawLever[] => {
		const isOwn = own.has(booking.person);
		const isNear = useful.size === 0 || useful.has(booking.station);
		if (!booking.fixed || !(isOwn || isNear)) return [];
		return [
			{
				kind: 'let-move',
				key: `move ${place}`,
				most: 1,
				reach: isOwn ? 2 : 1,
				minutes: () => 0,
				takes: () => taking({ movedBookings: 1 }),
				change(given) {
					const now = given.enrollment.bookings[place];
					return now && [putBooking(place, { ...now, fixed: false })];
				},
				does: () =>
					`Let the fixed booking of ${personName(model.rollout, booking.person)} at ${nameOf(stations, booking.station)} on ${booking.start.replace('T', ' ')} ${isOwn ? 'be planned anew, since it breaks a rule' : 'be moved'}`
			}
		];
	});
	return levers.slice(0, 12);
}
