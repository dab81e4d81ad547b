import { dateWords } from '$lib/core/calendar/date-words';
import { type LocalDate, dateOf } from '$lib/core/calendar/local-date';
import { wallTimeOf } from '$lib/core/calendar/local-date-time';
import { clockText } from '$lib/core/calendar/stretch';
import { nameOf } from '$lib/core/document/names';
import type { Booking, Rollout } from '$lib/core/document/schema';
import { findStretch } from '$lib/core/enrollment/validity';
import { byCodeUnits } from '$lib/core/kernel/compare';
import { groupBy } from '$lib/core/kernel/group-by';
import { type ConsentState, consentStates, noConsent } from '$lib/core/privacy/consent-state';
import { fresherNotices } from '$lib/core/privacy/notices';
import { enrollmentModelOf } from './enrollment-model';

/** Which sessions are listed; a part that is null leaves all. */
export interface SessionChoice {
	readonly station: string | null;
	readonly lane: number | null;
	/** Local dates, both included. */
	readonly from: string;
	readonly until: string | null;
}

/** So many sessions stand on one page of the screen, and in one print. */
export const mostSessions = 60;

/** What the desk needs of a person, and nothing more: no needs, no wave, no address. */
export interface ListedPerson {
	readonly person: string;
	readonly time: string;
	readonly name: string;
	readonly department: string | null;
	readonly captureClass: string | null;
	readonly minutes: number;
	readonly consent: string;
	/** No finger may be taken of this person. */
	readonly isBarred: boolean;
}

/** A session with its people in the order of their times. */
export interface SessionList {
	readonly key: string;
	readonly station: string;
	readonly place: string | null;
	readonly lane: number;
	readonly dateText: string;
	/** The stretch; null where the bookings lie in none. */
	readonly at: string | null;
	readonly people: readonly ListedPerson[];
}

/** The lists of the chosen sessions, by time, station and lane; `today` only decides which notices hold. */
export function sessionLists(rollout: Rollout, choice: SessionChoice, today: LocalDate): SessionList[] {
	const model = enrollmentModelOf(rollout);
	const { bookings, stations } = rollout.enrollment;
	const { from, until } = choice;
	const placed = bookings
		.filter(
			({ station, lane }) =>
				(choice.station === null || station === choice.station) && (choice.lane === null || lane === choice.lane)
		)
		.map((booking) => {
			const found = findStretch(model, booking);
			return { booking, date: found?.date ?? dateOf(wallTimeOf(booking.start).day), at: found?.at ?? null };
		})
		.filter(({ date }) => date >= from && (until === null || date <= until));
	const sessions = groupBy(placed, ({ booking: { station, lane }, date, at }) =>
		JSON.stringify([date, at ?? '', station, lane])
	);
	const consent = consentWords(rollout, today);
	return [...sessions]
		.sort(([a], [b]) => byCodeUnits(a, b))
		.flatMap(([key, entries]) => {
			const [first] = entries;
			if (!first) return [];
			const { station, lane } = first.booking;
			const area = stations.find(({ id }) => id === station)?.area;
			return [
				{
					key,
					station: nameOf(stations, station),
					place: area === undefined ? null : nameOf(rollout.areas, area),
					lane,
					dateText: dateWords(first.date),
					at: first.at,
					people: entries
						.map(({ booking }) => booking)
						.sort((a, b) => byCodeUnits(a.start, b.start))
						.map((booking) => listed(rollout, booking, consent))
				}
			];
		});
}

function listed(rollout: Rollout, booking: Booking, consent: (person: string) => [string, boolean]): ListedPerson {
	const { person, start, minutes } = booking;
	const who = enrollmentModelOf(rollout).peopleById.get(person);
	const { captureClasses } = rollout.enrollment;
	const captureClass = who?.captureClass ?? captureClasses[0]?.id ?? null;
	const [words, isBarred] = consent(person);
	return {
		person,
		time: `${start.slice(11)}–${clockText((wallTimeOf(start).minute + minutes) % 1440)}`,
		name: who?.name ?? person,
		department: who?.department ?? null,
		captureClass: captureClass === null ? null : nameOf(captureClasses, captureClass),
		minutes,
		consent: words,
		isBarred
	};
}

/** What the person at the desk does about the consent of each person, as an aid: the signed record decides. */
function consentWords(rollout: Rollout, today: LocalDate): (person: string) => [string, boolean] {
	const { notices, consents } = rollout.privacy;
	const states = consentStates(consents, today);
	const fresher = fresherNotices(notices, today);
	const { peopleById, standings } = enrollmentModelOf(rollout);
	const inForce = notices
		.filter(({ publishedOn }) => publishedOn !== null && publishedOn <= today)
		.sort((a, b) => byCodeUnits(b.publishedOn ?? '', a.publishedOn ?? ''));
	const named = (id: string) => {
		const notice = notices.find((one) => one.id === id);
		return [notice?.version ?? id, ...(notice?.language ? [notice.language] : [])].join(', ');
	};
	const toHand = (person: string) => {
		const language = peopleById.get(person)?.language;
		const notice = inForce.find((one) => one.language === language) ?? inForce[0];
		return notice ? `Hand out notice ${named(notice.id)}` : 'Hand out the notice';
	};
	return (person) => {
		const { decision, latestGiven }: ConsentState = states.get(person) ?? noConsent;
		if (decision === 'declined' || decision === 'withdrawn') return [`${decision}: take no fingerprint`, true];
		if (standings.get(person) === 'enrolled') return ['Enrolled already: nothing to take', true];
		if (decision === 'none' || !latestGiven) return [`${toHand(person)}, then ask`, false];
		if (fresher(latestGiven.notice)) return [`${toHand(person)}, ask anew`, false];
		return [`Given ${latestGiven.on}, notice ${named(latestGiven.notice)}`, false];
	};
}
