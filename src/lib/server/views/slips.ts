import { personCalendar } from '$lib/core/exports/person-calendars';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { type Telling, tellingOf } from '$lib/core/enrollment/told';
import { byCodeUnits } from '$lib/core/kernel/compare';
import { slipTime, slipWords } from './slip-words';

/** Which slips are made. */
export interface SlipChoice {
	/** Null for every department; empty for people without one. */
	readonly department: string | null;
	readonly who: SlipWho;
}

/** Whoever was not told of where they now are; whoever must be told anew; everybody who is booked. */
export type SlipWho = 'open' | 'anew' | 'all';

/** So many slips stand on one page of the screen, and are marked as told at once. */
export const mostSlips = 120;

/** An invitation for one booking. */
export interface Slip {
	readonly person: string;
	readonly name: string;
	readonly department: string | null;
	readonly telling: Telling;
	readonly language: string;
	readonly title: string;
	readonly lines: readonly { readonly label: string; readonly text: string }[];
	readonly voluntary: string;
	readonly replaces: string | null;
	/** The file of its calendar in the export of people's calendars. */
	readonly calendar: string;
	/** Changes when the person would have to be told anew. */
	readonly mark: string;
}

/** Slips by department and name. */
export function slipsOf(rollout: Rollout, { department, who }: SlipChoice): Slip[] {
	const { bookings } = rollout.enrollment;
	const personById = new Map(rollout.people.map((person) => [person.id, person]));
	return bookings
		.flatMap((booking): Slip[] => {
			const person = personById.get(booking.person);
			const telling = tellingOf(booking);
			if (!person || (department !== null && (person.department ?? '') !== department)) return [];
			if (who === 'open' ? telling === 'told' : who === 'anew' && telling !== 'anew') return [];
			const { language, words } = slipWords(person.language);
			const time = (start: string) => slipTime(start, language, rollout.site.country);
			const { toldOf } = booking;
			return [
				{
					person: person.id,
					name: person.name ?? person.id,
					department: person.department,
					telling,
					language,
					title: words.title,
					lines: [
						{ label: words.when, text: time(booking.start) },
						{ label: words.where, text: placeOf(rollout, booking.station) },
						{ label: words.howLong, text: words.minutes(booking.minutes) },
						...lineOf(words.bring, rollout.enrollment.invitation?.bring),
						{ label: words.happens, text: words.what },
						...lineOf(words.contact, contactOf(rollout))
					],
					voluntary: words.voluntary,
					replaces:
						telling === 'anew' && toldOf
							? `${words.replaces} ${time(toldOf.start)}, ${placeOf(rollout, toldOf.station)}`
							: null,
					calendar: personCalendar(person.id),
					mark: `${booking.station} ${booking.start}`
				}
			];
		})
		.sort((a, b) => byCodeUnits(`${a.department ?? ''}\n${a.name}`, `${b.department ?? ''}\n${b.name}`));
}

function lineOf(label: string, text: string | null | undefined): { label: string; text: string }[] {
	return text ? [{ label, text }] : [];
}

function placeOf(rollout: Rollout, station: string): string {
	const area = rollout.enrollment.stations.find(({ id }) => id === station)?.area;
	const name = nameOf(rollout.enrollment.stations, station);
	return area === undefined ? name : `${name}, ${nameOf(rollout.areas, area)}`;
}

function contactOf({ enrollment: { invitation } }: Rollout): string {
	return [invitation?.contact, invitation?.phone, invitation?.email].filter((one) => one).join(', ');
}
