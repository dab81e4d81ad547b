import { nameOf, personName } from '../document/names';
import { byCodeUnits } from '../kernel/compare';
import { defineExport } from './define-export';
import { AppointmentCalendars, type Shown } from './support/appointment-calendar';
import { type Appointment, type Place, withdrawnFor } from './support/appointments';
import { plainOf } from './support/plain-name';

export default defineExport({
	name: 'station-calendars',
	title: 'Calendar of each station',
	summary:
		'An iCalendar file per station with an event for each booking, in the time of the site. A booking that is moved keeps its UID and gets a higher SEQUENCE; what was freed, or moved to another station, after a calendar was taken out is withdrawn by a second file (METHOD:CANCEL).',
	appointments: 'stations',
	files(input) {
		const { rollout, record } = input;
		const calendars = new AppointmentCalendars(input);
		return rollout.enrollment.stations.flatMap(({ id }) => {
			const name = nameOf(rollout.enrollment.stations, id);
			const shown = ({ appointment, place }: { appointment: Appointment; place: Place }): Shown => ({
				appointment,
				place,
				summary: personName(rollout, appointment.person),
				description: `Lane ${place.lane}, ${place.minutes} minutes`,
				station: id
			});
			const booked = calendars.standing
				.filter(({ place }) => place.station === id)
				.map((appointment) => shown({ appointment, place: appointment.place }))
				.sort((a, b) => byCodeUnits(a.place.start, b.place.start));
			const withdrawn = record ? withdrawnFor(calendars.appointments, record, calendars.zone, id).map(shown) : [];
			const title = `${name}, ${rollout.site.name}`;
			const file = (part: string, about: string, content: () => string) => ({
				name: `station-${plainOf(id)}${part}.ics`,
				type: 'text/calendar',
				content,
				about: `${name}: ${about}`
			});
			return [
				...(booked.length === 0
					? []
					: [
							file('', `${booked.length} bookings`, () =>
								calendars.file(title, `Bookings at ${name}.`, 'PUBLISH', booked)
							)
						]),
				...(withdrawn.length === 0
					? []
					: [
							file('-withdrawn', `${withdrawn.length} withdrawn`, () =>
								calendars.file(title, `Bookings at ${name} that are no more.`, 'CANCEL', withdrawn)
							)
						])
			];
		});
	}
});
