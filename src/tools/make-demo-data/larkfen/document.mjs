import { accessProfiles, assignments } from './access.mjs';
import { areas, controllers, doorGroups, doors, readers } from './building.mjs';
import { enrollment } from './enrollment.mjs';
import { absences, people } from './people.mjs';
import { privacy } from './privacy.mjs';
import { holidays, schedules, shiftPatterns } from './when.mjs';

/** The rollout document of Larkfen Cold Store, an invented site in Illinois. */
export function larkfen() {
	return {
		format: 'doorwright.rollout',
		version: 1,
		site: {
			name: 'Larkfen Cold Store',
			timeZone: 'America/Chicago',
			country: 'US',
			region: 'IL',
			arriveEarlyMinutes: 15
		},
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		areas: areas(),
		doors: doors(),
		doorGroups: doorGroups(),
		controllers: controllers(),
		readers: readers(),
		schedules: schedules(),
		holidays: holidays(),
		people: people(),
		shiftPatterns: shiftPatterns(),
		absences: absences(),
		accessProfiles: accessProfiles(),
		assignments: assignments(),
		enrollment: enrollment(),
		privacy: privacy()
	};
}
