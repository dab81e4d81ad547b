import { tagged } from './people.mjs';

/** Who may open what, when, at Larkfen Cold Store. */

/** Nine access profiles; the visitors' one is not assigned yet. */
export function accessProfiles() {
	const floor = ['way-in', 'floor', 'cold-rooms', 'yard-side'];
	const plant = ['way-in', 'floor', 'cold-rooms', 'plant'];
	return [
		profile('office', 'Office', ['front', 'way-in', 'gallery'], 'office-hours'),
		profile('floor-days', 'Floor, early and late', floor, 'floor-days'),
		profile('floor-nights', 'Floor, nights', floor, 'floor-nights'),
		profile('plant-days', 'Plant, days', plant, 'plant-days'),
		profile('plant-nights', 'Plant, nights', plant, 'plant-nights'),
		profile('cleaning', 'Cleaning', ['front', 'way-in', 'floor', 'cold-rooms'], 'cleaning'),
		profile('whole-site', 'Whole site', ['whole-site'], 'always'),
		profile('sprinkler', 'Sprinkler fitters', ['sprinkler-way'], 'office-hours'),
		profile('visitors', 'Visitors', ['visitors'], 'office-hours')
	];
}

/**
 * @param {string} id
 * @param {string} name
 * @param {readonly string[]} groups
 * @param {string} schedule
 */
function profile(id, name, groups, schedule) {
	return { id, name, entries: groups.map((doorGroup) => ({ doorGroup, schedule })) };
}

/** Assignments: the pilot since November 2026, each wave from its go-live on. */
export function assignments() {
	const admins = [...tagged('admin'), ...tagged('leaving-admin')].map(({ id }) => id).sort();
	const manager = 'Site manager';
	return [
		assignment('a-guards', { jobs: ['Guard'] }, 'whole-site', '2026-11-02', manager),
		assignment('a-admins', { people: admins }, 'whole-site', '2026-11-09', manager),
		assignment('a-office', { departments: ['Office'] }, 'office', '2027-01-20', manager),
		assignment('a-maintenance', { departments: ['Maintenance'] }, 'plant-days', '2027-01-20', 'Maintenance lead'),
		{
			...assignment('a-sprinkler', { jobs: ['Sprinkler fitter'] }, 'sprinkler', '2027-01-20', 'Safety officer'),
			until: '2027-12-31'
		},
		assignment('a-floor', { departments: ['Picking', 'Dock'] }, 'floor-days', '2027-01-26', manager),
		assignment(
			'a-plant-days',
			{ jobs: ['Refrigeration operator, days'] },
			'plant-days',
			'2027-01-26',
			'Maintenance lead'
		),
		assignment(
			'a-plant-nights',
			{ jobs: ['Refrigeration operator, nights'] },
			'plant-nights',
			'2027-01-26',
			'Maintenance lead'
		),
		assignment('a-packing', { departments: ['Packing'] }, 'floor-days', '2027-01-31', manager),
		assignment('a-night', { departments: ['Night crew'] }, 'floor-nights', '2027-01-31', manager),
		assignment('a-cleaning', { departments: ['Cleaning'] }, 'cleaning', '2027-01-31', manager),
		// HR renamed the job to "Trainer" in the summer.
		assignment('a-instructor', { jobs: ['Reach truck instructor'] }, 'floor-days', '2027-01-26', manager)
	];
}

/**
 * @param {string} id
 * @param {{ people?: string[], departments?: string[], jobs?: string[] }} who
 * @param {string} accessProfile
 * @param {string} from
 * @param {string} approvedBy
 */
function assignment(id, who, accessProfile, from, approvedBy) {
	return { id, who, accessProfile, from, approvedBy };
}
