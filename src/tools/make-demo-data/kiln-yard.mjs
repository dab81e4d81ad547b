/** The tutorial's document: Ember Lane Kiln Yard, an invented pottery in England with 4 doors and 12 people. */

const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri'];

/** Rows: number, name, department, job, first day, pattern, areas, needs. */
const staff = [
	person('K01', 'Rosalind Achterberg', 'Studio', 'Studio lead', '2014-09-01', 'DAY', ['studio']),
	person('K02', 'Idris Kettlewell', 'Studio', 'Thrower', '2017-03-06', 'DAY', ['studio']),
	person('K03', 'Mei-Xing Aldous', 'Studio', 'Thrower', '2019-06-03', 'DAY', ['studio']),
	person('K04', 'Tobias Ravensdale', 'Studio', 'Glazer', '2020-02-03', 'DAY', ['studio', 'kilns']),
	person('K05', 'Oluchi Farnsworth', 'Studio', 'Glazer', '2021-10-04', 'DAY', ['studio', 'kilns']),
	person('K06', 'Kasia Brzoza', 'Studio', 'Mold maker', '2022-05-09', 'DAY', ['studio']),
	person('K07', 'Gethin Marlpit', 'Kilns', 'Kiln lead', '2012-01-09', 'LATE', ['kilns']),
	// The first firing of the day: at the kiln before the schedule opens.
	person('K08', 'Dunya Haverkamp', 'Kilns', 'Firer', '2018-11-05', 'FIRST', ['kilns']),
	person('K09', 'Callum Ostrowick', 'Kilns', 'Firer', '2023-04-03', 'LATE', ['kilns']),
	person('K10', 'Beatrix Nandakumar', 'Shop', 'Shopkeeper', '2016-07-04', 'SHOP', ['studio']),
	{ ...person('K11', 'Fergus Tollemarch', 'Shop', 'Packer', '2024-08-05', 'SHOP', ['studio']), needs: ['step-free'] },
	person('K12', 'Saoirse Wendover', 'Office', 'Manager', '2011-05-02', 'DAY', ['studio'])
];

/**
 * @param {string} id
 * @param {string} name
 * @param {string} department
 * @param {string} job
 * @param {string} startsOn
 * @param {string} shiftPattern
 * @param {string[]} workAreas
 */
function person(id, name, department, job, startsOn, shiftPattern, workAreas) {
	const email = `${(name.split(' ')[0] ?? '').toLowerCase()}@emberlane.example`;
	/** @type {string[]} */
	const needs = [];
	return { id, name, department, job, email, startsOn, shiftPattern, workAreas, wave: 'all', needs, language: 'en' };
}

export function kilnYard() {
	return {
		format: 'doorwright.rollout',
		version: 1,
		site: {
			name: 'Ember Lane Kiln Yard',
			timeZone: 'Europe/London',
			country: 'GB',
			region: 'ENG',
			arriveEarlyMinutes: 10
		},
		horizon: { from: '2027-02-01', until: '2027-08-31' },
		areas: [
			{ id: 'lane', name: 'Ember Lane', outside: true },
			{ id: 'yard', name: 'Yard' },
			{ id: 'studio', name: 'Studio and shop' },
			{ id: 'kilns', name: 'Kiln house' }
		],
		doors: [
			door('gate', 'Yard gate', 'lane', 'yard'),
			door('shop', 'Shop door', 'lane', 'studio'),
			door('studio', 'Studio door', 'yard', 'studio'),
			door('kiln-house', 'Kiln house door', 'yard', 'kilns')
		],
		doorGroups: [
			{ id: 'work', name: 'Gate and studio', doors: ['gate', 'studio'] },
			{ id: 'shop', name: 'Shop', doors: ['shop'] },
			{ id: 'kilns', name: 'Kiln house', doors: ['kiln-house'] },
			{ id: 'gate', name: 'Gate', doors: ['gate'] }
		],
		controllers: [
			{
				id: 'box',
				name: 'Box under the stairs',
				maxDoors: 4,
				maxTemplates: 100,
				maxSchedules: 8,
				maxHolidays: 20,
				supplyMilliamps: 2000
			}
		],
		readers: ['gate', 'shop', 'studio', 'kiln-house'].map((id, index) => ({
			id: `r-${id}`,
			door: id,
			controller: 'box',
			module: `m${Math.floor(index / 2) + 1}`,
			milliamps: 400
		})),
		schedules: [
			schedule('workshop', 'Workshop', weekdays, '07:30-18:30'),
			schedule('firing', 'Firing', weekdays, '06:00-22:30'),
			schedule('shop-hours', 'Shop', [...weekdays, 'sat'], '08:30-18:00')
		],
		holidays: {
			coveredUntil: '2027-08-31',
			days: [
				{ date: '2027-03-26', name: 'Good Friday', kind: 'public' },
				{ date: '2027-03-29', name: 'Easter Monday', kind: 'public' },
				{ date: '2027-05-03', name: 'Early May bank holiday', kind: 'public' },
				{ date: '2027-05-31', name: 'Spring bank holiday', kind: 'public' }
			]
		},
		people: staff,
		shiftPatterns: [
			pattern('DAY', 'Day', [0, 1, 2, 3, 4], '08:00-16:30'),
			pattern('FIRST', 'First firing', [0, 1, 2, 3, 4], '06:00-14:00'),
			pattern('LATE', 'Late firing', [0, 1, 2, 3, 4], '14:00-22:00'),
			pattern('SHOP', 'Shop', [1, 2, 3, 4, 5], '09:00-17:30')
		],
		absences: [{ person: 'K06', from: '2027-02-22', until: '2027-02-23' }],
		accessProfiles: [
			{
				id: 'makers',
				name: 'Makers',
				entries: [
					{ doorGroup: 'work', schedule: 'workshop' },
					{ doorGroup: 'kilns', schedule: 'workshop' }
				]
			},
			{
				id: 'firers',
				name: 'Firers',
				entries: [
					{ doorGroup: 'gate', schedule: 'firing' },
					{ doorGroup: 'kilns', schedule: 'firing' }
				]
			},
			{ id: 'shop', name: 'Shop', entries: [{ doorGroup: 'shop', schedule: 'shop-hours' }] }
		],
		assignments: [
			{
				id: 'makers',
				who: { departments: ['Studio', 'Office'] },
				accessProfile: 'makers',
				from: '2027-03-01',
				approvedBy: 'Manager'
			},
			{
				id: 'firers',
				who: { departments: ['Kilns'] },
				accessProfile: 'firers',
				from: '2027-03-01',
				approvedBy: 'Manager'
			},
			{ id: 'shop', who: { departments: ['Shop'] }, accessProfile: 'shop', from: '2027-03-01', approvedBy: 'Manager' }
		],
		enrollment: {
			gridMinutes: 5,
			waves: [{ id: 'all', name: 'Everyone', enrollBy: '2027-02-25', goLive: '2027-03-01' }],
			captureClasses: [
				{ id: 'standard', name: 'Standard', minutes: 8 },
				{ id: 'worn', name: 'Fingertips worn by clay', minutes: 13 }
			],
			stations: [
				{
					id: 'desk',
					name: 'Desk in the studio',
					area: 'studio',
					lanes: 1,
					turnoverMinutes: 2,
					serves: ['step-free'],
					open: [
						{ date: '2027-02-23', at: '13:00-15:30' },
						{ date: '2027-02-24', at: '09:00-11:00' }
					]
				}
			],
			walks: [{ between: ['kilns', 'studio'], minutes: 2 }],
			awayLimits: [
				{ department: 'Studio', maxAway: 2 },
				{ department: 'Kilns', maxAway: 1 },
				{ department: 'Shop', maxAway: 1 }
			],
			assumptions: { noShow: 0.05, repeatVisit: 0.1, failToEnroll: 0.02, minutesSpread: 0.25 }
		},
		privacy: {
			regimes: ['uk'],
			siteRules: { daysAfterLeaving: 1 },
			notices: [{ id: 'n1', version: '1.0', language: 'en', publishedOn: '2026-11-16' }],
			consents: [
				{ person: 'K12', notice: 'n1', decision: 'given', on: '2026-11-18', method: 'signed-form' },
				{ person: 'K09', notice: 'n1', decision: 'declined', on: '2026-11-20', method: 'in-person' }
			]
		}
	};
}

/**
 * @param {string} id
 * @param {string} name
 * @param {string} from
 * @param {string} to
 */
function door(id, name, from, to) {
	return { id, name, from, to, exit: 'free', identify: 'finger', controller: 'box' };
}

/**
 * @param {string} id
 * @param {string} name
 * @param {readonly string[]} days
 * @param {string} at
 */
function schedule(id, name, days, at) {
	return { id, name, week: Object.fromEntries(days.map((day) => [day, [at]])), holidays: { public: 'closed' } };
}

/**
 * @param {string} id
 * @param {string} name
 * @param {readonly number[]} days days after Monday
 * @param {string} at
 */
function pattern(id, name, days, at) {
	return { id, name, anchor: '2027-02-01', cycleDays: 7, shifts: days.map((day) => ({ day, at })) };
}
