import type { Costs, Rollout, Station } from '../../document/schema';
import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays } from '../../calendar/local-date';
import type { EnrollmentModel } from '../model';
import type { Shortfall } from '../shortfalls';
import { type EntryChange, putAwayLimit, putStation, putWave } from './entry-change';

/**
 * One lever that could be pulled for a shortfall, from its least amount to its most; what it does and costs hangs on the amount. A
 * rollout in which levers were pulled before can be pulled on further: `change` looks at the rollout that it is given.
 */
export interface Step {
	readonly kind: 'open-longer' | 'open-anew' | 'one-more-lane' | 'away-limit' | 'due-date' | 'serve-need';
	/** Amounts: whole numbers from 1. */
	readonly most: number;
	/** Undefined where the document does not admit the amount. */
	change(rollout: Rollout, amount: number): readonly EntryChange[] | undefined;
	/** Minutes that the amount stands for, and its price by the cost table. */
	minutes(amount: number): number;
	cost(amount: number): number;
	does(amount: number): string;
}

const minutesOfDay = 1440;

/** All levers that could help the people of a shortfall, `missing` of whom are to be booked. */
export function stepsFor(model: EnrollmentModel, shortfall: Shortfall, missing: readonly string[]): Step[] {
	const { rollout } = model;
	const people = shortfall.people.flatMap((id) => model.peopleById.get(id) ?? []);
	const wanted = missing.flatMap((id) => model.peopleById.get(id) ?? []);
	const needs = new Set(people.flatMap((person) => person.needs));
	const serving = model.stations.filter(({ serves }) =>
		wanted.some((person) => person.needs.every((need) => serves.has(need)))
	);
	const lacking = wanted.reduce((sum, person) => sum + (model.minutesOf(person) ?? 0), 0);
	const steps: Step[] = [];
	for (const { station, stretches } of serving) {
		const turnover = station.turnoverMinutes * wanted.length;
		const most = Math.ceil((lacking + turnover) / rollout.enrollment.gridMinutes) + 1;
		const isOpen = new Set(
			shortfall.stretches.filter((piece) => piece.station === station.id).map(({ from }) => from.slice(0, 10))
		);
		const near = stretches.filter(({ date }) => isOpen.size === 0 || isOpen.has(date)).slice(0, mostStretches);
		for (const { date, at } of near) {
			for (const side of ['end', 'begin'] as const)
				steps.push(openLonger(rollout, station.id, { date, at }, side, most));
		}
		steps.push(oneMoreLane(rollout, station, lacking + turnover));
	}
	steps.push(...openAnew(model, wanted));
	if (shortfall.department !== undefined) steps.push(...higherLimits(rollout, shortfall, lacking));
	steps.push(
		...laterDates(
			rollout,
			wanted.map(({ wave }) => wave)
		)
	);
	for (const need of needs) steps.push(...moreServing(rollout, need));
	return steps;
}

const mostStretches = 6;

function costsOf(rollout: Rollout): Costs {
	return rollout.enrollment.costs;
}

function nameOfStation(rollout: Rollout, id: string): string {
	return rollout.enrollment.stations.find((one) => one.id === id)?.name ?? id;
}

function clock(minute: number): string {
	return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
}

function clockMinutes(text: string): number {
	return Number(text.slice(0, 2)) * 60 + Number(text.slice(3));
}

interface WrittenStretch {
	readonly date: LocalDate;
	readonly at: string;
}

/** Begin of a stretch in minutes after its date's midnight, and its end, beyond 1440 where it runs into the next date. */
function extentOf(at: string): { from: number; to: number } {
	const [from, to] = [clockMinutes(at.slice(0, 5)), clockMinutes(at.slice(6))];
	return { from, to: to <= from ? to + minutesOfDay : to };
}

function openLonger(
	rollout: Rollout,
	stationId: string,
	{ date, at }: WrittenStretch,
	side: 'begin' | 'end',
	most: number
): Step {
	const { gridMinutes } = rollout.enrollment;
	const { stationHour } = costsOf(rollout);
	const lanes = rollout.enrollment.stations.find((one) => one.id === stationId)?.lanes ?? 1;
	const day = epochDayOf(date);
	const { from, to } = extentOf(at);
	const longer = (minutes: number): string | undefined => {
		const [begin, end] = side === 'end' ? [from, to + minutes] : [from - minutes, to];
		if (begin < 0 || end - begin >= minutesOfDay) return undefined;
		return `${clock(begin)}-${end === minutesOfDay ? '24:00' : clock(end % minutesOfDay)}`;
	};
	return {
		kind: 'open-longer',
		most,
		minutes: (amount) => amount * gridMinutes,
		cost: (amount) => (amount * gridMinutes * lanes * stationHour) / 60,
		change(given, amount) {
			const station = given.enrollment.stations.find((one) => one.id === stationId);
			const place = station?.open.findIndex((one) => one.date === date && one.at === at) ?? -1;
			const written = longer(amount * gridMinutes);
			if (!station || place < 0 || written === undefined) return undefined;
			const own = extentOf(written);
			const isFree = station.open.every((other, index) => {
				if (index === place) return true;
				const shift = (epochDayOf(other.date) - day) * minutesOfDay;
				const its = extentOf(other.at);
				return its.to + shift <= own.from || own.to <= its.from + shift;
			});
			if (!isFree) return undefined;
			return [putStation({ ...station, open: station.open.with(place, { date, at: written }) })];
		},
		does: (amount) =>
			`Open ${nameOfStation(rollout, stationId)} on ${date} ${longer(amount * gridMinutes) ?? at} in place of ${at}`
	};
}

function oneMoreLane(rollout: Rollout, station: Station, minutes: number): Step {
	const { installerDay, stationHour } = costsOf(rollout);
	return {
		kind: 'one-more-lane',
		most: 2,
		minutes: () => minutes,
		cost: (amount) => amount * installerDay + (minutes * stationHour) / 60,
		change(given, amount) {
			const own = given.enrollment.stations.find((one) => one.id === station.id);
			return own && [putStation({ ...own, lanes: own.lanes + amount })];
		},
		does: (amount) =>
			`Set up ${amount === 1 ? 'one more lane' : `${amount} more lanes`} at ${nameOfStation(rollout, station.id)}`
	};
}

/** New stretches at times when people who cannot come are free, one for each of a few people and stations. */
function openAnew(model: EnrollmentModel, wanted: readonly Rollout['people'][number][]): Step[] {
	const { rollout } = model;
	const { gridMinutes } = rollout.enrollment;
	const { stationHour, installerDay } = costsOf(rollout);
	const first = model.openDays?.from ?? epochDayOf(rollout.horizon.from);
	const last = epochDayOf(rollout.horizon.until);
	const steps: Step[] = [];
	for (const person of wanted.slice(0, mostPeopleAnew)) {
		const minutes = model.minutesOf(person);
		if (minutes === undefined) continue;
		for (const { station, serves } of model.stations) {
			if (person.needs.some((need) => !serves.has(need))) continue;
			const walk = Math.ceil(model.walkOf(person, station.area) / 60);
			const found = firstFreeStretch(model, person, station, minutes, walk, [first, last]);
			if (!found) continue;
			const due = model.enrollByOf(person);
			const late = due === null ? 0 : Math.max(0, epochDayOf(found.date) - epochDayOf(due));
			if (late > 0 && person.wave === null) continue;
			const lengthOf = (amount: number): number => {
				const { from, to } = extentOf(found.at);
				return Math.min(to - from + (amount - 1) * gridMinutes, minutesOfDay - from);
			};
			const at = (amount: number): string => {
				const { from } = extentOf(found.at);
				const end = from + lengthOf(amount);
				return `${clock(from)}-${end === minutesOfDay ? '24:00' : clock(end)}`;
			};
			steps.push({
				kind: 'open-anew',
				most: Math.ceil((wanted.length * (minutes + station.turnoverMinutes)) / gridMinutes) + 1,
				minutes: lengthOf,
				cost: (amount) => (lengthOf(amount) * station.lanes * stationHour) / 60 + late * installerDay,
				change(given, amount) {
					const own = given.enrollment.stations.find((one) => one.id === station.id);
					if (!own) return undefined;
					const day = epochDayOf(found.date);
					const extent = extentOf(at(amount));
					const isFree = own.open.every((other) => {
						const shift = (epochDayOf(other.date) - day) * minutesOfDay;
						const its = extentOf(other.at);
						return its.to + shift <= extent.from || extent.to <= its.from + shift;
					});
					if (!isFree) return undefined;
					const opened = putStation({ ...own, open: [...own.open, { date: found.date, at: at(amount) }] });
					const wave = given.enrollment.waves.find((one) => one.id === person.wave);
					return late > 0 && wave ? [putWave({ ...wave, enrollBy: found.date }), opened] : [opened];
				},
				does: (amount) =>
					`Open ${nameOfStation(rollout, station.id)} also on ${found.date} ${at(amount)}${late > 0 ? `, and let the wave be enrolled until then` : ''}`
			});
		}
	}
	return steps;
}

const mostPeopleAnew = 12;

/** The first time in which somebody could come to a station if it were open, after the due date if need be; undefined for never. */
function firstFreeStretch(
	model: EnrollmentModel,
	person: Rollout['people'][number],
	station: Station,
	minutes: number,
	walk: number,
	[first, last]: readonly [EpochDay, EpochDay]
): WrittenStretch | undefined {
	const { gridMinutes } = model.rollout.enrollment;
	const opens = model.zone.midnightOf(first);
	for (const span of model.freeSpansOf(person, first, last)) {
		const day = model.zone.dayAt((Math.max(span.from, opens) + walk * 60) as never);
		const midnight = model.zone.midnightOf(day);
		const earliest = (Math.max(span.from, opens) - midnight) / 60 + walk;
		// At first a time apart from what is open already; any time at which nothing else of the station is.
		for (
			let begin = Math.ceil(earliest / gridMinutes) * gridMinutes;
			begin + minutes <= minutesOfDay;
			begin += gridMinutes
		) {
			const end = begin + minutes;
			if (midnight + (end + walk) * 60 > span.to) break;
			const isFree = station.open.every((other) => {
				const shift = (epochDayOf(other.date) - day) * minutesOfDay;
				const its = extentOf(other.at);
				return its.to + shift <= begin || end <= its.from + shift;
			});
			if (isFree) return { date: dateOf(day), at: `${clock(begin)}-${end === minutesOfDay ? '24:00' : clock(end)}` };
		}
	}
	return undefined;
}

function higherLimits(rollout: Rollout, { department }: Shortfall, minutes: number): Step[] {
	const { personAwayHour } = costsOf(rollout);
	return rollout.enrollment.awayLimits.flatMap((limit, place): Step[] => {
		if (limit.department !== department || limit.maxAway === null) return [];
		const { maxAway } = limit;
		return [
			{
				kind: 'away-limit',
				most: 5,
				minutes: () => minutes,
				cost: (amount) => (amount * minutes * personAwayHour) / 60,
				change: (given, amount) => {
					const own = given.enrollment.awayLimits[place];
					return own && [putAwayLimit(place, { ...own, maxAway: maxAway + amount })];
				},
				does: (amount) => `Let ${maxAway + amount} of ${department} be away at once, ${amount} more than now`
			}
		];
	});
}

function laterDates(rollout: Rollout, waves: readonly (string | null)[]): Step[] {
	const { installerDay } = costsOf(rollout);
	return rollout.enrollment.waves.flatMap((wave): Step[] => {
		const { enrollBy } = wave;
		if (!waves.includes(wave.id) || enrollBy === null) return [];
		const dateAfter = (amount: number): LocalDate => dateOf(plusDays(epochDayOf(enrollBy), amount));
		return [
			{
				kind: 'due-date',
				most: 14,
				minutes: (amount) => amount * minutesOfDay,
				cost: (amount) => amount * installerDay,
				change: (given, amount) => {
					const own = given.enrollment.waves.find((one) => one.id === wave.id);
					return own && [putWave({ ...own, enrollBy: dateAfter(amount) })];
				},
				does: (amount) => `Let ${wave.name ?? wave.id} be enrolled until ${dateAfter(amount)} in place of ${enrollBy}`
			}
		];
	});
}

function moreServing(rollout: Rollout, need: string): Step[] {
	const { installerDay } = costsOf(rollout);
	return rollout.enrollment.stations.flatMap((station): Step[] => {
		if (station.serves.includes(need)) return [];
		return [
			{
				kind: 'serve-need',
				most: 1,
				minutes: () => 0,
				cost: () => installerDay,
				change: (given) => {
					const own = given.enrollment.stations.find((one) => one.id === station.id);
					return own && [putStation({ ...own, serves: [...own.serves, need] })];
				},
				does: () => `Serve ${need} also at ${nameOfStation(rollout, station.id)}`
			}
		];
	});
}
