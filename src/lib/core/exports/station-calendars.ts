import ical, { ICalCalendarMethod } from 'ical-generator';
import { epochDayOf, plusDays } from '../calendar/local-date';
import { wallTimeOf } from '../calendar/local-date-time';
import { Zone } from '../calendar/zone';
import { nameOf, personName } from '../document/names';
import type { Booking, Rollout } from '../document/schema';
import { defineExport } from './define-export';
import { plainOf } from './support/plain-name';

export default defineExport({
	name: 'station-calendars',
	title: 'Calendar of each station',
	summary:
		'An iCalendar file per station with an event for each booking, its times in UTC so that every calendar shows the right moment. A booking keeps its UID when it moves.',
	files({ rollout, madeAt }) {
		return rollout.enrollment.stations.flatMap((station) => {
			const bookings = rollout.enrollment.bookings.filter((booking) => booking.station === station.id);
			if (bookings.length === 0) return [];
			const name = nameOf(rollout.enrollment.stations, station.id);
			return [
				{
					name: `station-${plainOf(station.id)}.ics`,
					type: 'text/calendar',
					content: () => calendarOf(rollout, `${name}, ${rollout.site.name}`, bookings, madeAt),
					about: `${name}: ${bookings.length} bookings`
				}
			];
		});
	}
});

/**
 * Bookings as an iCalendar object.
 * @source RFC 5545, sections 3.6.1 (VEVENT), 3.8.4.7 (UID stable for one event), 3.3.5 form 2 (UTC)
 */
function calendarOf(rollout: Rollout, name: string, bookings: readonly Booking[], madeAt: number): string {
	const days = bookings.map(({ start }) => wallTimeOf(start).day);
	const first = days.reduce((a, b) => (a < b ? a : b), epochDayOf(rollout.horizon.from));
	const last = days.reduce((a, b) => (a > b ? a : b), epochDayOf(rollout.horizon.until));
	const zone = new Zone(rollout.site.timeZone, first, plusDays(last, 1));
	const calendar = ical({
		name,
		method: ICalCalendarMethod.PUBLISH,
		prodId: { company: 'Doorwright', product: 'Enrollment sessions' }
	});
	for (const booking of bookings) {
		const start = zone.instantOf(wallTimeOf(booking.start));
		calendar.createEvent({
			id: `enrollment-${plainOf(booking.person)}@${plainOf(rollout.site.name)}.doorwright.invalid`,
			start: new Date(start * 1000),
			end: new Date((start + booking.minutes * 60) * 1000),
			stamp: new Date(madeAt),
			summary: personName(rollout, booking.person),
			description: `Lane ${booking.lane}, ${booking.minutes} minutes${booking.fixed ? ', fixed' : ''}`,
			location: nameOf(rollout.enrollment.stations, booking.station)
		});
	}
	return calendar.toString();
}
