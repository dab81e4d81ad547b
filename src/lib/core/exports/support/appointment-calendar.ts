import { type EpochDay, epochDayOf, plusDays } from '../../calendar/local-date';
import { wallTimeOf } from '../../calendar/local-date-time';
import { type Instant, Zone } from '../../calendar/zone';
import { nameOf } from '../../document/names';
import type { Rollout } from '../../document/schema';
import {
	type Appointment,
	type AppointmentRecord,
	type Place,
	appointmentUid,
	appointmentsOf,
	uuidOf
} from './appointments';
import { type Line, calendarFile, component, instantValue, textValue, wallValue } from './ical';
import { vtimezone } from './vtimezone';

/** What calendars of appointments are made from. */
export interface AppointmentInput {
	readonly rollout: Rollout;
	readonly madeAt: number;
	readonly record?: AppointmentRecord | undefined;
}

export type Method = 'PUBLISH' | 'REQUEST' | 'CANCEL';

/** An appointment with what its event says beside time and place. */
export interface Shown {
	readonly appointment: Appointment;
	readonly place: Place;
	readonly summary: string;
	readonly description: string;
	/** Whose station it is seen from; null for the person. */
	readonly station: string | null;
	readonly attendee?: { readonly name: string; readonly email: string } | undefined;
}

/** Appointments of a rollout made ready once for several calendars. */
export class AppointmentCalendars {
	readonly appointments: readonly Appointment[];
	readonly zone: Zone;
	readonly #input: AppointmentInput;
	readonly #from: EpochDay;
	readonly #until: EpochDay;

	constructor(input: AppointmentInput) {
		const { rollout, record } = input;
		this.#input = input;
		this.appointments = appointmentsOf(rollout, record);
		const days = this.appointments.flatMap(({ stood }) => stood.map(({ place }) => wallTimeOf(place.start).day));
		days.push(epochDayOf(rollout.horizon.from), epochDayOf(rollout.horizon.until));
		this.#from = days.reduce((a, b) => (a < b ? a : b));
		this.#until = days.reduce((a, b) => (a > b ? a : b));
		this.zone = new Zone(rollout.site.timeZone, this.#from, plusDays(this.#until, 1));
	}

	/** Appointments that stand. */
	get standing(): readonly Appointment[] {
		return this.appointments.filter(({ stood }) => stood.at(-1)?.to === null);
	}

	/**
	 * A calendar of appointments. Times are those of the clock at the site, with its VTIMEZONE.
	 * @source RFC 5546, sections 3.2.1 (PUBLISH), 3.2.2 (REQUEST), 3.2.5 (CANCEL); RFC 5545, sections 3.8.4.7 and 3.8.7.4
	 */
	file(name: string, about: string, method: Method, shown: readonly Shown[]): string {
		const { site } = this.#input.rollout;
		const days = shown.map(({ place }) => wallTimeOf(place.start).day);
		const [from, until] = [
			days.reduce((a, b) => (a < b ? a : b), days[0] ?? this.#from),
			days.reduce((a, b) => (a > b ? a : b), days[0] ?? this.#until)
		];
		const events = shown.map((one) => component('VEVENT', this.#lines(one, method)));
		return calendarFile(name, about, [vtimezone(site.timeZone, from, until), ...events], method);
	}

	#lines({ appointment, place, summary, description, station, attendee }: Shown, method: Method): Line[] {
		const { rollout, madeAt, record } = this.#input;
		const { site, enrollment } = rollout;
		const key = record?.key ?? site.name;
		const start = wallTimeOf(place.start);
		// Minutes pass in elapsed time, also over a clock change.
		const endsAt = (this.zone.instantOf(start) + place.minutes * 60) as Instant;
		const local = endsAt + this.zone.offsetAt(endsAt);
		const end = {
			day: Math.floor(local / 86400) as EpochDay,
			minute: Math.floor((((local % 86400) + 86400) % 86400) / 60)
		};
		const area = enrollment.stations.find(({ id }) => id === place.station)?.area;
		const where = [
			nameOf(enrollment.stations, place.station),
			...(area === undefined ? [] : [nameOf(rollout.areas, area)])
		];
		const { changedAt } = appointment;
		return [
			['UID', appointmentUid(key, appointment, station)],
			['DTSTAMP', instantValue(Math.floor(madeAt / 1000) as Instant)],
			['SEQUENCE', String(appointment.sequence)],
			...(changedAt === null
				? []
				: [['LAST-MODIFIED', instantValue(Math.floor(Date.parse(changedAt) / 1000) as Instant)] as const]),
			[`DTSTART;TZID=${site.timeZone}`, wallValue(start)],
			[`DTEND;TZID=${site.timeZone}`, wallValue(end)],
			['SUMMARY', textValue(summary)],
			['LOCATION', textValue([...where, site.name].join(', '))],
			...(description === '' ? [] : [['DESCRIPTION', textValue(description)] as const]),
			['CLASS', 'PRIVATE'],
			['STATUS', method === 'CANCEL' ? 'CANCELLED' : 'CONFIRMED'],
			['TRANSP', 'OPAQUE'],
			this.#organizer(key),
			...(attendee ? [attendeeLine(attendee, method)] : [])
		];
	}

	/** Scheduling wants an organizer; without an address it is one that names the rollout and can be written to by nobody. */
	#organizer(key: string): Line {
		const { site, enrollment } = this.#input.rollout;
		const name = enrollment.invitation?.contact ?? site.name;
		const email = mailOf(enrollment.invitation?.email);
		return [`ORGANIZER;CN=${parameterValue(name)}`, email === null ? `urn:uuid:${uuidOf([key])}` : mailto(email)];
	}
}

function attendeeLine({ name, email }: { name: string; email: string }, method: Method): Line {
	const asked = method === 'REQUEST' ? ';ROLE=REQ-PARTICIPANT;PARTSTAT=NEEDS-ACTION;RSVP=TRUE' : '';
	return [`ATTENDEE;CN=${parameterValue(name)}${asked}`, mailto(email)];
}

/** An address that a calendar can write to; null for text that is none. */
export function mailOf(text: string | null | undefined): string | null {
	return text && /^[^\s@<>"]+@[^\s@<>"]+$/.test(text) ? text : null;
}

function mailto(email: string): string {
	return `mailto:${encodeURI(email)}`;
}

/**
 * Text as a quoted parameter.
 * @source RFC 5545, section 3.2; RFC 6868, section 3 (circumflex for what cannot be quoted): from memory
 */
function parameterValue(text: string): string {
	const escaped = text
		.replaceAll('^', '^^')
		.replaceAll(/\r\n|[\r\n]/g, '^n')
		.replaceAll('"', "^'");
	return `"${escaped.replaceAll(/[\u0000-\u0008\u000a-\u001f\u007f]/g, ' ')}"`;
}
