import Holidays, { type HolidaysTypes } from 'date-holidays';
import { byCodeUnits } from '../kernel/compare';
import { groupBy } from '../kernel/group-by';
import { type EpochDay, type LocalDate, dateOf, epochDayOf, isLocalDate, plusDays, weekdayOf } from './local-date';
import { type StatutoryCorrection, statutoryCorrections } from './statutory-corrections';

/**
 * Official public holidays, from the library date-holidays with our corrections over it. The library brings all its data
 * with it and is slow to load: import this module dynamically, where holidays are asked for.
 */

/** Whose holidays: as in a rollout's `site`. */
export interface HolidayPlace {
	/** ISO 3166-1 alpha-2. */
	readonly country: string | null;
	/** Subdivision part of ISO 3166-2. */
	readonly region: string | null;
	/** What the source needs beyond the region: its code or its name there, such as `KATH` in Bavaria. */
	readonly holidayArea: string | null;
}

/** An official public holiday on a date; two on one date are one entry with both names. */
export interface StatutoryHoliday {
	readonly date: LocalDate;
	/** In English where the source has it. */
	readonly name: string;
	/** Given for a day that falls on another date. */
	readonly isSubstitute: boolean;
}

/** A place to pick: its code and its name in English where the source has one. */
export interface NamedPlace {
	readonly code: string;
	readonly name: string;
}

/** Whether the source knows the parts of a place; null where the place does not name that part. */
export interface PlaceKnown {
	readonly country: boolean | null;
	readonly region: boolean | null;
	readonly holidayArea: boolean | null;
}

/** Where the days come from and under what license: to be shown wherever they are. */
export const holidaySource = {
	name: 'date-holidays',
	version: '3.37.0',
	license: 'ISC AND CC-BY-3.0',
	address: 'https://github.com/commenthol/date-holidays'
} as const;

/**
 * Codes of ISO 3166-2 that the source has under another one. The source divides by holidays, not by the standard: both
 * departments of Alsace stand in it, the authority above them does not.
 * @source ISO 3166-2:GB (EAW, England and Wales), ISO 3166-2:FR (6AE, 971 to 976); from memory
 */
const otherCodes: Readonly<Record<string, string>> = {
	'GB-EAW': 'ENG',
	'FR-6AE': '67',
	'FR-971': 'GP',
	'FR-972': 'MQ',
	'FR-973': 'GF',
	'FR-974': 'RE',
	'FR-976': 'YT'
};

/**
 * The official public holidays of a place from one date to another, both included, in order, each date once. Without a
 * region, or with one unknown to the source, the days of the whole country; without a country, or with one unknown to the
 * source, none: `placeKnown` tells which.
 * @source library date-holidays 3.37.0, type `public`; corrections with their sources in `statutory-corrections.ts`
 * @example statutoryHolidays({ country: 'GB', region: 'ENG', holidayArea: null }, from, until) // 27 Dec 2027, not the 25th
 */
export function statutoryHolidays(place: HolidayPlace, from: LocalDate, until: LocalDate): StatutoryHoliday[] {
	const found = findPlace(place);
	if (found === null || until < from) return [];
	const days = withCorrections(daysOf(found, from, until), found);
	return onePerDate(days.filter(({ date }) => date >= from && date <= until));
}

/** Which parts of a place the source knows, so that an empty list can be told from an unknown place. */
export function placeKnown(place: HolidayPlace): PlaceKnown {
	const found = findPlace(place);
	return {
		country: place.country === null ? null : found !== null,
		region: place.region === null ? null : found !== null && found.region !== null,
		holidayArea: place.holidayArea === null ? null : found !== null && found.usesArea
	};
}

/** What a place is called: `Illinois, United States of America`; the codes themselves where the source does not know them. */
export function placeName(place: HolidayPlace): string {
	const found = findPlace(place);
	if (found === null) return [place.region, place.country].filter((code) => code !== null).join(', ');
	const country = nameIn(countries(), found.country);
	if (found.region === null) return country;
	const region = `${nameIn(regionsOf(found.country), found.region)}, ${country}`;
	return found.area === null ? region : `${nameIn(holidayAreasOf(found.country, found.region), found.area)}, ${region}`;
}

/** The countries that the source knows, by name. */
export function countries(): NamedPlace[] {
	return named(new Holidays().getCountries('en'));
}

/** The regions of a country whose holidays differ, by name; none for a country that the source does not divide. */
export function regionsOf(country: string): NamedPlace[] {
	return named(new Holidays().getStates(country, 'en'));
}

/** The areas of a region whose holidays differ (denomination, city, district), by name. */
export function holidayAreasOf(country: string, region: string): NamedPlace[] {
	return named(new Holidays().getRegions(country, region, 'en'));
}

interface FoundPlace {
	readonly country: string;
	readonly region: string | null;
	readonly area: string | null;
	readonly usesArea: boolean;
}

interface Day extends StatutoryHoliday {
	readonly rule: string;
	readonly isPublic: boolean;
}

/** The codes of a place in the source; null when it does not know the country. */
function findPlace(place: HolidayPlace): FoundPlace | null {
	const country = place.country;
	if (country === null || !countries().some(({ code }) => code === country)) return null;
	const regions = regionsOf(country);
	const wanted = otherCodes[`${country}-${place.region ?? ''}`] ?? place.region;
	const region = findNamed(regions, wanted);
	if (region !== null) {
		const area = findNamed(holidayAreasOf(country, region), place.holidayArea);
		return { country, region, area, usesArea: area !== null };
	}
	// A region that the source does not divide by holidays as a whole may name the part of it as its area.
	const part = findNamed(regions, place.holidayArea);
	return { country, region: part, area: null, usesArea: part !== null };
}

function findNamed(places: readonly NamedPlace[], wanted: string | null): string | null {
	if (wanted === null) return null;
	const text = wanted.trim().toLowerCase();
	return places.find(({ code, name }) => code.toLowerCase() === text || name.toLowerCase() === text)?.code ?? null;
}

function nameIn(places: readonly NamedPlace[], wanted: string): string {
	return places.find(({ code }) => code === wanted)?.name ?? wanted;
}

/** Public and bank holidays as the library has them; a year more at each end, since a day observed may change the year. */
function daysOf({ country, region, area }: FoundPlace, from: LocalDate, until: LocalDate): Day[] {
	const source =
		region === null
			? new Holidays(country)
			: area === null
				? new Holidays(country, region)
				: new Holidays(country, region, area);
	const days: Day[] = [];
	for (let year = Number(from.slice(0, 4)) - 1; year <= Number(until.slice(0, 4)) + 1; year++) {
		for (const holiday of source.getHolidays(year, 'en')) {
			if (holiday.type === 'public' || holiday.type === 'bank') days.push(...datesOf(holiday));
		}
	}
	return days;
}

/** The dates on which a holiday of the library lies: it has a start on the local clock, and a length of hours or days. */
function datesOf(holiday: HolidaysTypes.Holiday): Day[] {
	const first = holiday.date.slice(0, 10);
	if (!isLocalDate(first)) return [];
	const startHour = Number(holiday.date.slice(11, 13)) + Number(holiday.date.slice(14, 16)) / 60;
	const hours = (holiday.end.getTime() - holiday.start.getTime()) / 3_600_000;
	// Rounded, since a clock change makes a day 23 or 25 hours long.
	const count = Math.max(1, Math.round((startHour + hours) / 24));
	const partOfDay = startHour > 0 && count === 1 ? ` (from ${holiday.date.slice(11, 16)})` : '';
	return Array.from({ length: count }, (_, index) => ({
		date: dateOf(plusDays(epochDayOf(first), index)),
		name: holiday.name + partOfDay,
		isSubstitute: holiday.substitute === true || isMoved(holiday.rule, first),
		rule: holiday.rule,
		isPublic: holiday.type === 'public'
	}));
}

/** True when a rule that begins with a fixed date gave another one; the library marks only some of these. */
function isMoved(rule: string, date: LocalDate): boolean {
	const fixed = /^(\d\d-\d\d) (?:and )?if /.exec(rule)?.[1];
	return fixed !== undefined && fixed !== date.slice(5);
}

function withCorrections(days: readonly Day[], { country, region }: FoundPlace): Day[] {
	const applicable = statutoryCorrections.filter(
		(one) => one.country === country && (one.region === 'all' || one.region === region)
	);
	const corrected = applicable.reduce(correct, days);
	return corrected.filter((day) => day.isPublic);
}

function correct(days: readonly Day[], { effect }: StatutoryCorrection): readonly Day[] {
	switch (effect.kind) {
		case 'add': {
			const { date, name, isSubstitute } = effect;
			const isThere = days.some((day) => day.date === date && day.isPublic);
			return isThere ? days : [...days, { date, name, isSubstitute, rule: '', isPublic: true }];
		}
		case 'drop':
			return days.filter((day) => day.rule !== effect.rule);
		case 'drop-substitute':
			return days.filter(
				(day) =>
					day.rule !== effect.rule || !day.isSubstitute || effect.exceptYears.includes(Number(day.date.slice(0, 4)))
			);
		case 'count':
			return days.map((day) => (day.rule === effect.rule ? { ...day, isPublic: true } : day));
		case 'rename':
			return days.map((day) => (day.rule === effect.rule ? { ...day, name: effect.name } : day));
		case 'weekdays-only':
			return days.filter((day) => !isWeekend(epochDayOf(day.date)));
	}
}

function isWeekend(day: EpochDay): boolean {
	const weekday = weekdayOf(day);
	return weekday === 'sat' || weekday === 'sun';
}

function onePerDate(days: readonly Day[]): StatutoryHoliday[] {
	return [...groupBy(days, (day) => day.date)]
		.sort(([a], [b]) => byCodeUnits(a, b))
		.map(([date, same]) => ({
			date,
			name: [...new Set(same.map((day) => day.name))].join(' / '),
			isSubstitute: same.every((day) => day.isSubstitute)
		}));
}

function named(names: Readonly<Record<string, string>> | undefined): NamedPlace[] {
	return Object.entries(names ?? {})
		.map(([code, name]) => ({ code, name }))
		.sort((a, b) => byCodeUnits(a.name, b.name) || byCodeUnits(a.code, b.code));
}
