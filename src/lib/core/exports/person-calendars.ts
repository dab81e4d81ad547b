import { strToU8, zipSync } from 'fflate/browser';
import { nameOf } from '../document/names';
import type { Person } from '../document/schema';
import { groupBy } from '../kernel/group-by';
import { type ExportInput, type ExportedFile, defineExport } from './define-export';
import { AppointmentCalendars, type Method, mailOf } from './support/appointment-calendar';
import { type Appointment, byPerson, withdrawnFor } from './support/appointments';
import { plainOf } from './support/plain-name';

export default defineExport({
	name: 'person-calendars',
	title: 'Appointments of people',
	summary:
		'A zip per department with an iCalendar file for each person who is booked: an invitation (METHOD:REQUEST) where the contact and the person have an address, else METHOD:PUBLISH. A later file replaces the earlier one in a calendar (same UID, higher SEQUENCE); who is not booked any more after calendars were taken out has a file in the folder withdrawn (METHOD:CANCEL). Single files are named appointment-ID.ics and appointment-ID-withdrawn.ics.',
	appointments: 'people',
	files(input) {
		const made = new PersonCalendars(input);
		const departments = groupBy(made.people, ({ department }) => department ?? '');
		return [...departments].map(([department, people]) => {
			const [booked, gone] = [made.count(people, 'booked'), made.count(people, 'withdrawn')];
			return {
				name: departmentZip(department),
				type: 'application/zip',
				about: `${department === '' ? 'No department' : department}: ${booked} booked${gone === 0 ? '' : `, ${gone} withdrawn`}`,
				content: () =>
					zipOf(
						people.flatMap((person) => made.filesOf(person)),
						input.madeAt
					)
			};
		});
	},
	unlisted(input, name) {
		const made = new PersonCalendars(input);
		return made.people.flatMap((person) => made.filesOf(person)).find((file) => file.name === name);
	}
});

/** The name of the zip of a department; an empty text stands for people without one. */
export function departmentZip(department: string): string {
	return `appointments-${department === '' ? 'no-department' : `of-${plainOf(department)}`}.zip`;
}

/** The name of the calendar of one person. */
export function personCalendar(person: string, part: '' | '-withdrawn' = ''): string {
	return `appointment-${plainOf(person)}${part}.ics`;
}

/** Who has a calendar: whoever is booked, or was when calendars were taken out. */
class PersonCalendars {
	readonly people: readonly Person[];
	readonly #calendars: AppointmentCalendars;
	readonly #booked: ReadonlyMap<string, readonly Appointment[]>;
	readonly #withdrawn: ReadonlyMap<string, readonly Appointment[]>;
	readonly #input: ExportInput;

	constructor(input: ExportInput) {
		this.#input = input;
		this.#calendars = new AppointmentCalendars(input);
		const { appointments, standing, zone } = this.#calendars;
		this.#booked = byPerson(standing);
		const gone = input.record ? withdrawnFor(appointments, input.record, zone, null) : [];
		this.#withdrawn = byPerson(gone.map(({ appointment }) => appointment));
		this.people = input.rollout.people.filter(({ id }) => this.#booked.has(id) || this.#withdrawn.has(id));
	}

	count(people: readonly Person[], which: 'booked' | 'withdrawn'): number {
		const among = which === 'booked' ? this.#booked : this.#withdrawn;
		return people.filter(({ id }) => among.has(id)).length;
	}

	filesOf(person: Person): ExportedFile[] {
		const { enrollment } = this.#input.rollout;
		const [organizer, email] = [mailOf(enrollment.invitation?.email), mailOf(person.email)];
		const method = organizer !== null && email !== null ? 'REQUEST' : 'PUBLISH';
		return [
			...this.#file(person, '', method, this.#booked.get(person.id) ?? []),
			...this.#file(person, '-withdrawn', 'CANCEL', this.#withdrawn.get(person.id) ?? [])
		];
	}

	#file(person: Person, part: '' | '-withdrawn', method: Method, appointments: readonly Appointment[]): ExportedFile[] {
		if (appointments.length === 0) return [];
		const { rollout } = this.#input;
		const name = person.name ?? person.id;
		const email = mailOf(person.email);
		const shown = appointments.map((appointment) => ({
			appointment,
			place: appointment.place,
			summary: `Appointment, ${nameOf(rollout.enrollment.stations, appointment.place.station)}`,
			description: this.#description(appointment),
			station: null,
			attendee: email === null || method === 'PUBLISH' ? undefined : { name, email }
		}));
		const about = method === 'CANCEL' ? 'This appointment is withdrawn.' : 'Your appointment for the new doors.';
		return [
			{
				name: personCalendar(person.id, part),
				type: 'text/calendar',
				about: name,
				content: () => this.#calendars.file(`Appointment, ${rollout.site.name}`, about, method, shown)
			}
		];
	}

	/** What helps to come, and nothing that colleagues who see the calendar need not know. */
	#description({ place }: Appointment): string {
		const { invitation } = this.#input.rollout.enrollment;
		const contact = [invitation?.contact, invitation?.phone, invitation?.email].filter((one) => one);
		return [
			`Takes about ${place.minutes} minutes.`,
			...(invitation?.bring ? [`To bring: ${invitation.bring}`] : []),
			...(contact.length === 0 ? [] : [`Questions, or you cannot come: ${contact.join(', ')}`])
		].join('\n');
	}
}

/** Calendars in a zip; its times are those of the making. Cancellations lie in a folder of their own. */
function zipOf(files: readonly ExportedFile[], madeAt: number): Uint8Array<ArrayBuffer> {
	const entries = files.map(({ name, content }) => {
		const folder = name.endsWith('-withdrawn.ics') ? 'withdrawn/' : '';
		return [`${folder}${name}`, strToU8(String(content()))] as const;
	});
	return new Uint8Array(zipSync(Object.fromEntries(entries), { mtime: madeAt }));
}
