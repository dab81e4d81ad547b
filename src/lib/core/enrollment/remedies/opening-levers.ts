import { type EpochDay, type LocalDate, dateOf, epochDayOf, plusDays } from '../../calendar/local-date';
import type { Span, SpanSet } from '../../calendar/spans';
import { clockText, stretch } from '../../calendar/stretch';
import { nameOf } from '../../document/names';
import type { Station, Wave } from '../../document/schema';
import type { EnrollmentModel, OpenStretch, ReadyStation } from '../model';
import { putStation, putWave } from './entry-change';
import { laterText, serveText } from './entry-levers';
import type { LeverTerms, RawLever } from './lever';
import { type Profile, closedSpans, datesOnTime, mostDaysLate, visitSpans } from './presence';
import { taking } from './price';

/**
 * Levers that open a station longer: an open stretch earlier or later, or a stretch of its own where people are there. Where somebody's
 * needs are not served, or the time is after the due date, a new stretch brings that change with it.
 */
export function openingLevers(terms: LeverTerms): RawLever[] {
	const levers: RawLever[] = [];
	const profiles = terms.profiles.slice(0, mostProfiles);
	for (const ready of terms.model.stations) {
		const presence = new Map(profiles.map((profile) => [profile, presenceAt(terms.model, profile, ready)]));
		levers.push(...longerStretches(terms, ready, presence));
		levers.push(...newStretches(terms, ready, presence));
	}
	return levers;
}

const mostProfiles = 40;
const minutesOfDay = 1440;

function presenceAt(model: EnrollmentModel, profile: Profile, { station }: ReadyStation): SpanSet {
	return visitSpans(model, profile, station.area, datesOnTime(model, profile.person));
}

type Presence = ReadonlyMap<Profile, SpanSet>;

/** People who could visit some time of a span; those who are missing count more. */
function peopleIn(presence: Presence, span: Span, serves: ReadonlySet<string> | undefined): number {
	let sum = 0;
	for (const [{ person, count, missing, minutes }, spans] of presence) {
		if (serves && person.needs.some((need) => !serves.has(need))) continue;
		const isThere = spans.some(
			({ from, to }) => Math.min(to, span.to) - Math.max(from, span.from) > 0 && to - from >= minutes * 60
		);
		if (isThere) sum += count + 1000 * missing;
	}
	return sum;
}

function longerStretches(
	terms: LeverTerms,
	{ station, serves, stretches }: ReadyStation,
	presence: Presence
): RawLever[] {
	const { gridMinutes } = terms.model.rollout.enrollment;
	const wanted = Math.min(12 * 60, Math.ceil(terms.minutesOfAll / station.lanes) + 120);
	const sides = stretches.flatMap((open, index) => {
		const before = stretches[index - 1];
		const after = stretches[index + 1];
		const { from, to } = stretch(open.at);
		const length = minutesOfDay - 1 - (to - from);
		const later = Math.min(wanted, length, after ? (after.from - open.to) / 60 : Infinity);
		const earlier = Math.min(wanted, length, from, before ? (open.from - before.to) / 60 : Infinity);
		return [
			{ open, side: 'end' as const, most: later, span: { from: open.to, to: open.to + later * 60 } },
			{ open, side: 'begin' as const, most: earlier, span: { from: open.from - earlier * 60, to: open.from } }
		];
	});
	return sides
		.filter(({ most }) => most >= gridMinutes)
		.map((one) => ({ ...one, people: peopleIn(presence, one.span, serves) }))
		.filter(({ people }) => people > 0)
		.sort((a, b) => b.people - a.people || a.open.from - b.open.from)
		.slice(0, terms.isLarge ? 3 : 8)
		.map(({ open, side, most, people }) => {
			return { ...openLonger(terms.model, station, open, side, Math.floor(most / gridMinutes)), reach: people };
		});
}

function openLonger(
	model: EnrollmentModel,
	station: Station,
	{ date, at }: OpenStretch,
	side: 'begin' | 'end',
	most: number
): Omit<RawLever, 'reach'> {
	const { gridMinutes, stations } = model.rollout.enrollment;
	const { from, to } = stretch(at);
	const clocks = (begin: number, end: number): string => `${clockText(begin)}-${clockText(end)}`;
	const longer = (minutes: number): string =>
		side === 'end' ? clocks(from, to + minutes) : clocks(from - minutes, to);
	const added = (amount: number): number =>
		Math.max(0, model.minutesOpen({ date, at: longer(amount * gridMinutes) }) - model.minutesOpen({ date, at }));
	const isSameEnd = (text: string): boolean => (side === 'end' ? stretch(text).to === to : stretch(text).from === from);
	return {
		kind: 'open-longer',
		key: `longer ${JSON.stringify([station.id, date, at, side])}`,
		most,
		minutes: added,
		takes: (amount) => taking({ stationMinutes: added(amount) * station.lanes }),
		adds: (amount) => (amount * gridMinutes + station.turnoverMinutes + gridMinutes) * station.lanes,
		change(given, amount) {
			const own = given.enrollment.stations.find((one) => one.id === station.id);
			// The other end may have been moved before.
			const place = own?.open.findIndex((one) => one.date === date && isSameEnd(one.at)) ?? -1;
			const now = own?.open[place];
			if (!own || !now) return undefined;
			const its = stretch(now.at);
			const minutes = amount * gridMinutes;
			if (its.to - its.from + minutes >= minutesOfDay || its.from < (side === 'begin' ? minutes : 0)) return undefined;
			const opened = {
				date,
				at: side === 'end' ? clocks(its.from, its.to + minutes) : clocks(its.from - minutes, its.to)
			};
			return isApart(own, opened, place) ? [putStation({ ...own, open: own.open.with(place, opened) })] : undefined;
		},
		does: (amount) =>
			`Open ${nameOf(stations, station.id)} on ${date} ${longer(amount * gridMinutes)} in place of ${at}, ${added(amount)} minutes longer`
	};
}

/** True where a stretch meets none of a station's other stretches, by the clock. */
function isApart(station: Station, opened: { date: LocalDate; at: string }, except = -1): boolean {
	const day = epochDayOf(opened.date);
	const own = stretch(opened.at);
	return station.open.every((other, index) => {
		const days = epochDayOf(other.date) - day;
		if (index === except || Math.abs(days) > 2) return true;
		const its = stretch(other.at);
		const shift = days * minutesOfDay;
		return its.to + shift <= own.from || own.to <= its.from + shift;
	});
}

/** A new stretch: its begin, how long it may become, and what else it takes. */
interface Beginning {
	readonly date: LocalDate;
	/** Minutes after midnight, and the least and most minutes that it lasts. */
	readonly from: number;
	readonly least: number;
	readonly most: number;
	readonly people: number;
	readonly daysLate: number;
	readonly wave: Wave | undefined;
	readonly lacking: readonly string[];
}

function newStretches(terms: LeverTerms, ready: ReadyStation, presence: Presence): RawLever[] {
	const { model } = terms;
	const begins = new Map<string, Beginning>();
	for (const [profile, spans] of presence) {
		if (profile.missing === 0) continue;
		const dates = datesOnTime(model, profile.person);
		let own = beginnings(terms, ready, profile, spans, 0, presence);
		if (own.length === 0) {
			const late = { from: plusDays(dates.until, 1), until: plusDays(dates.until, mostDaysLate) };
			const after = visitSpans(model, profile, ready.station.area, late);
			if (profile.person.wave !== null) own = beginnings(terms, ready, profile, after, dates.until, presence);
		}
		for (const one of own) begins.set(JSON.stringify([one.date, one.from, one.lacking, one.wave?.id]), one);
	}
	return [...begins.values()]
		.sort((a, b) => b.people - a.people || a.daysLate - b.daysLate || (a.date < b.date ? -1 : 1))
		.slice(0, terms.isLarge ? 3 : 6)
		.map((one) => openAnew(model, ready.station, one));
}

/** Where a new stretch could begin for somebody: the first few times at which they are there and the station is not open. */
function beginnings(
	{ model, minutesOfAll, isLarge }: LeverTerms,
	ready: ReadyStation,
	profile: Profile,
	spans: SpanSet,
	due: number,
	presence: Presence
): Beginning[] {
	const { person, minutes } = profile;
	const { gridMinutes, waves } = model.rollout.enrollment;
	const usual = usualBegin(ready);
	const found: Beginning[] = [];
	const mostFound = isLarge ? 40 : 4;
	const wave = due === 0 ? undefined : waves.find(({ id }) => id === person.wave);
	const lacking = [...new Set(person.needs)].filter((need) => !ready.serves.has(need)).sort();
	const cap = Math.min(12 * 60, Math.ceil(minutesOfAll / ready.station.lanes) + minutes + gridMinutes);
	const put = (day: EpochDay, from: number, span: Span): void => {
		const midnight = model.zone.midnightOf(day);
		const room = Math.min(cap, (span.to - midnight) / 60 - from, minutesOfDay - 1);
		const begin = midnight + from * 60;
		if (begin < span.from || room < minutes) return;
		const people = peopleIn(presence, { from: begin, to: begin + room * 60 }, undefined);
		const date = dateOf(day);
		found.push({ date, from, least: minutes, most: room, people, daysLate: due === 0 ? 0 : day - due, wave, lacking });
	};
	for (const span of closedSpans(spans, ready, minutes)) {
		if (found.length >= mostFound) break;
		const first = model.zone.dayAt(span.from as never);
		const last = model.zone.dayAt((span.to - 1) as never);
		const before = found.length;
		// Somebody who is there all day is asked to come when the station usually opens.
		for (let day = first; day <= last && found.length < before + 2; day = plusDays(day, 1)) {
			if (span.to - span.from > 14 * 3600) put(day, usual, span);
		}
		if (found.length > before) continue;
		const minute = Math.ceil((span.from - model.zone.midnightOf(first)) / 60 / gridMinutes) * gridMinutes;
		put(minute < minutesOfDay ? first : plusDays(first, 1), minute < minutesOfDay ? minute : 0, span);
	}
	return found;
}

/** When the station opens most often, on the grid or not as written; eight in the morning where it never does. */
function usualBegin({ station }: ReadyStation): number {
	const counts = new Map<number, number>();
	for (const { at } of station.open) counts.set(stretch(at).from, (counts.get(stretch(at).from) ?? 0) + 1);
	return [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]?.[0] ?? 8 * 60;
}

function openAnew(model: EnrollmentModel, station: Station, beginning: Beginning): RawLever {
	const { gridMinutes, stations, waves } = model.rollout.enrollment;
	const { date, from, least, most, people, daysLate, wave, lacking } = beginning;
	const lengthOf = (amount: number): number => Math.min(least + (amount - 1) * gridMinutes, most);
	const at = (amount: number): string => `${clockText(from)}-${clockText(from + lengthOf(amount))}`;
	const minutes = (amount: number): number => model.minutesOpen({ date, at: at(amount) });
	return {
		kind: 'open-anew',
		key: `anew ${JSON.stringify([station.id, date, from, lacking, wave?.id])}`,
		reach: people,
		most: 1 + Math.ceil((most - least) / gridMinutes),
		minutes,
		takes: (amount) =>
			taking({ stationMinutes: minutes(amount) * station.lanes, installerDays: daysLate + lacking.length }),
		change(given, amount) {
			const own = given.enrollment.stations.find((one) => one.id === station.id);
			const opened = { date, at: at(amount) };
			if (!own || !isApart(own, opened)) return undefined;
			const serves = [...new Set([...own.serves, ...lacking])];
			const put = putStation({ ...own, serves, open: [...own.open, opened] });
			const moved = given.enrollment.waves.find((one) => one.id === wave?.id);
			const isLate = moved !== undefined && moved.enrollBy !== null && moved.enrollBy < dueFor(beginning, amount);
			return isLate ? [putWave({ ...moved, enrollBy: dueFor(beginning, amount) }), put] : [put];
		},
		does(amount) {
			const where = nameOf(stations, station.id);
			const parts = [`Open ${where} also on ${date} ${at(amount)}, ${minutes(amount)} minutes`];
			if (lacking.length > 0) parts.push(serveText(lacking, where));
			if (wave?.enrollBy) {
				parts.push(laterText(nameOf(waves, wave.id), wave.enrollBy, dueFor(beginning, amount), wave.goLive));
			}
			return parts.join('; ');
		}
	};
	function dueFor({ date: begins }: Beginning, amount: number): LocalDate {
		return from + lengthOf(amount) > minutesOfDay ? dateOf(plusDays(epochDayOf(begins), 1)) : begins;
	}
}
