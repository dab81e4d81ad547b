import { people, tagged } from './people.mjs';

/** Getting everyone at Larkfen Cold Store enrolled in January 2027. */

export function enrollment() {
	return {
		gridMinutes: 5,
		waves: [
			{ id: 'w1', name: 'Office, trades and guards', enrollBy: '2027-01-15', goLive: '2027-01-20' },
			{ id: 'w2', name: 'Picking, dock and refrigeration', enrollBy: '2027-01-22', goLive: '2027-01-26' },
			// A Sunday: the night crew goes live with the first shift of its week.
			{ id: 'w3', name: 'Packing, nights and cleaning', enrollBy: '2027-01-28', goLive: '2027-01-31' }
		],
		captureClasses: [
			{ id: 'standard', name: 'Standard', minutes: 8 },
			{ id: 'worn', name: 'Worn or cold fingertips', minutes: 13 }
		],
		stations: stations(),
		walks: [
			walk('cold', 'welfare', 6),
			walk('cold', 'dock', 3),
			walk('dock', 'welfare', 4),
			walk('packing', 'welfare', 3),
			walk('packing', 'dock', 4),
			walk('engine', 'welfare', 7),
			walk('engine', 'dock', 4),
			walk('offices', 'welfare', 3),
			walk('offices', 'packing', 5),
			walk('offices', 'dock', 6),
			walk('engine', 'offices', 9),
			walk('cold', 'offices', 9)
		],
		awayLimits: [
			{ department: 'Office', maxAway: 5 },
			{ department: 'Picking', maxAway: 4 },
			{ department: 'Dock', maxAway: 3 },
			{ department: 'Packing', maxAway: 4 },
			{ department: 'Night crew', maxAway: 3 },
			{ department: 'Refrigeration', maxAway: 1 },
			{ department: 'Maintenance', maxAway: 2 },
			{ department: 'Cleaning', maxAway: 2 }
		],
		bookings: bookings(),
		assumptions: { noShow: 0.08, repeatVisit: 0.05, failToEnroll: 0.01, minutesSpread: 0.25 }
	};
}

function stations() {
	const firstWeek = ['2027-01-11', '2027-01-12', '2027-01-13', '2027-01-14'];
	const secondWeek = ['2027-01-19', '2027-01-20', '2027-01-21'];
	const thirdWeek = ['2027-01-25', '2027-01-26', '2027-01-28'];
	return [
		{
			id: 'training',
			name: 'Training room',
			area: 'offices',
			lanes: 1,
			turnoverMinutes: 2,
			serves: ['step-free', 'quiet'],
			open: [...open(firstWeek, ['08:30-11:30']), ...open(['2027-01-12', '2027-01-14', '2027-01-26'], ['13:00-15:00'])]
		},
		{
			id: 'canteen',
			name: 'Canteen alcove',
			area: 'welfare',
			lanes: 2,
			turnoverMinutes: 2,
			serves: ['step-free', 'interpreter-es', 'interpreter-pl'],
			open: [
				...open(secondWeek, ['07:00-09:30', '15:00-17:30']),
				...open(thirdWeek, ['07:00-10:00', '15:00-17:30']),
				// For the night crew, in the middle of its shift; and once for those who only come on Saturday night.
				...open(['2027-01-20', '2027-01-25'], ['22:30-02:00']),
				...open(['2027-01-23'], ['18:30-20:00'])
			]
		},
		{
			id: 'dispatch',
			name: 'Dispatch office',
			area: 'dock',
			lanes: 1,
			turnoverMinutes: 3,
			serves: [],
			open: [
				...open(['2027-01-14'], ['18:30-20:30']),
				...open(['2027-01-18', '2027-01-20', '2027-01-22'], ['07:30-10:30']),
				...open(['2027-01-18', '2027-01-19', '2027-01-20', '2027-01-21'], ['17:00-20:00'])
			]
		}
	];
}

/**
 * @param {readonly string[]} dates
 * @param {readonly string[]} stretches
 */
function open(dates, stretches) {
	return dates.flatMap((date) => stretches.map((at) => ({ date, at })));
}

/**
 * @param {string} one
 * @param {string} other
 * @param {number} minutes
 */
function walk(one, other, minutes) {
	return { between: [one, other], minutes };
}

/** The site manager opens the training room, that is agreed; three of the office are pencilled in after. */
function bookings() {
	const clerks = people().filter(({ job, needs }) => job === 'Transport planner' && needs.length === 0);
	const manager = tagged('site-manager').map(({ id }) => booking(id, '2027-01-11T08:30', true));
	const starts = ['2027-01-11T08:40', '2027-01-11T08:50', '2027-01-11T09:00'];
	return [...manager, ...starts.map((start, index) => booking(clerks[index]?.id ?? '', start, false))];
}

/**
 * @param {string} person
 * @param {string} start
 * @param {boolean} fixed
 */
function booking(person, start, fixed) {
	return { person, station: 'training', lane: 1, start, minutes: 8, fixed };
}
