import { counted } from '../../document/names';
import type { Rollout } from '../../document/schema';
import { type ReportItem, reported } from './report';

/** Parts of a document that have no place in the model, as far as there is something in them. */
export function leftOut({ privacy, enrollment, ...rollout }: Rollout): ReportItem[] {
	const lists: readonly (readonly [path: string, count: number, one: string, many?: string])[] = [
		['$.areas', rollout.areas.length, 'area'],
		[
			'$.doors',
			rollout.doors.length,
			'door, named by its id as an access point',
			'doors, named by their ids as access points'
		],
		[
			'$.doorGroups',
			rollout.doorGroups.length,
			'door group, written out door by door',
			'door groups, written out door by door'
		],
		['$.controllers', rollout.controllers.length, 'controller'],
		['$.readers', rollout.readers.length, 'reader'],
		['$.shiftPatterns', rollout.shiftPatterns.length, 'shift pattern'],
		['$.absences', rollout.absences.length, 'absence'],
		['$.enrollment.waves', enrollment.waves.length, 'wave'],
		['$.enrollment.captureClasses', enrollment.captureClasses.length, 'capture class', 'capture classes'],
		['$.enrollment.stations', enrollment.stations.length, 'enrollment station'],
		['$.enrollment.walks', enrollment.walks.length, 'walk'],
		['$.enrollment.awayLimits', enrollment.awayLimits.length, 'limit of people away', 'limits of people away'],
		['$.enrollment.bookings', enrollment.bookings.length, 'booking'],
		['$.privacy.regimes', privacy.regimes.length, 'rule pack'],
		['$.privacy.notices', privacy.notices.length, 'notice'],
		['$.privacy.consents', privacy.consents.length, 'consent entry', 'consent entries'],
		['$.privacy.templates', privacy.templates.length, 'template entry', 'template entries'],
		['$.privacy.holds', privacy.holds.length, 'hold'],
		['$.privacy.places', privacy.places.length, 'place of templates', 'places of templates'],
		['$.privacy.erasureOrders', privacy.erasureOrders.length, 'erasure work order'],
		['$.privacy.requests', privacy.requests.length, 'request of a person', 'requests of persons']
	];
	const approved = rollout.assignments.filter(({ approvedBy }) => approvedBy !== null).length;
	const items = lists
		.filter(([, count]) => count > 0)
		.map(([path, count, one, many]) => reported('not-part', path, counted(count, one, many)));
	if (rollout.people.length > 0) {
		const fields = 'names, departments, jobs, e-mail, shift patterns, work areas, waves, needs and languages of people';
		items.push(reported('not-part', '$.people', fields));
	}
	if (approved > 0)
		items.push(reported('not-part', '$.assignments', `who approved ${counted(approved, 'assignment')}`));
	if (rollout.holidays.coveredUntil !== null) {
		items.push(reported('not-part', '$.holidays.coveredUntil', 'until when the list of holidays is complete'));
	}
	return items;
}
