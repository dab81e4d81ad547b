/** Schedules, holidays and shift patterns of Larkfen Cold Store. */

const weekdays = /** @type {const} */ (['mon', 'tue', 'wed', 'thu', 'fri']);
const allDays = /** @type {const} */ ([...weekdays, 'sat', 'sun']);

/**
 * @param {readonly string[]} days
 * @param {string} stretch
 */
function on(days, stretch) {
	return Object.fromEntries(days.map((day) => [day, [stretch]]));
}

/**
 * Seven schedules. Kinds of holiday: `public` (nobody is rostered but the plant and the guards), `worked` (statutory,
 * but the site works as usual), `half-day`, `shutdown`.
 */
export function schedules() {
	return [
		{
			id: 'always',
			name: 'Around the clock',
			week: on(allDays, '00:00-24:00'),
			holidays: { public: 'normal', worked: 'normal', 'half-day': 'normal', shutdown: 'normal' }
		},
		{
			id: 'office-hours',
			name: 'Office hours',
			week: on(weekdays, '06:30-19:00'),
			holidays: { public: 'closed', worked: 'normal', 'half-day': ['06:30-13:00'], shutdown: ['08:00-12:00'] }
		},
		{
			// Saturday was typed as two shifts that meet half an hour too well.
			id: 'floor-days',
			name: 'Floor, early and late',
			week: { ...on(weekdays, '05:30-22:30'), sat: ['05:30-14:30', '14:00-22:30'] },
			holidays: { public: 'closed', worked: 'normal', 'half-day': 'normal', shutdown: 'closed' }
		},
		{
			// What is left of the night before a holiday is listed for the holiday itself.
			id: 'floor-nights',
			name: 'Floor, nights',
			week: on(['sun', 'mon', 'tue', 'wed', 'thu'], '21:30-06:30'),
			holidays: { public: ['00:00-06:30'], worked: 'normal', 'half-day': 'normal', shutdown: ['00:00-06:30'] }
		},
		{
			id: 'plant-days',
			name: 'Plant, days',
			week: on(allDays, '05:30-18:30'),
			holidays: { public: 'normal', worked: 'normal', 'half-day': 'normal', shutdown: 'normal' }
		},
		{
			// Copied from the floor: closed on public holidays, when the compressors run all the same.
			id: 'plant-nights',
			name: 'Plant, nights',
			week: on(allDays, '17:30-06:30'),
			holidays: { public: 'closed', worked: 'normal', 'half-day': 'normal', shutdown: 'normal' }
		},
		{
			// Older than the half days; Saturday was extended to 02:30 without looking at Sunday.
			id: 'cleaning',
			name: 'Cleaning',
			week: { ...on(weekdays, '17:00-23:30'), sat: ['17:30-02:30'], sun: ['02:00-06:00'] },
			holidays: { public: 'closed', worked: 'normal', shutdown: 'normal' }
		}
	];
}

/**
 * The calendar as two imports left it: from the statutory list, then from HR's list of paid days. Complete to the end
 * of November, where HR's year ends.
 */
export function holidays() {
	return {
		coveredUntil: '2027-11-30',
		days: [
			day('2027-01-01', 'New Year’s Day', 'public'),
			day('2027-01-18', 'Martin Luther King Jr. Day', 'worked'),
			day('2027-02-12', 'Lincoln’s Birthday', 'worked'),
			day('2027-02-15', 'Washington’s Birthday', 'worked'),
			day('2027-03-01', 'Casimir Pulaski Day', 'worked'),
			day('2027-05-31', 'Memorial Day', 'public'),
			day('2027-06-18', 'Juneteenth (observed)', 'public'),
			day('2027-07-04', 'Independence Day', 'public'),
			day('2027-07-05', 'Independence Day (observed)', 'public'),
			day('2027-09-06', 'Labor Day', 'public'),
			day('2027-10-11', 'Columbus Day', 'worked'),
			day('2027-11-11', 'Veterans Day', 'worked'),
			day('2027-11-25', 'Thanksgiving Day', 'public'),
			day('2027-05-31', 'Memorial Day (paid)', 'public'),
			day('2027-07-02', 'Half day before Independence Day', 'half-day'),
			day('2027-08-02', 'Summer defrost', 'shutdown'),
			day('2027-08-03', 'Summer defrost', 'shutdown'),
			day('2027-08-04', 'Summer defrost', 'shutdown'),
			day('2027-08-05', 'Summer defrost', 'shutdown'),
			day('2027-08-06', 'Summer defrost', 'shutdown'),
			day('2027-09-06', 'Labor Day (paid)', 'public'),
			day('2027-11-24', 'Half day before Thanksgiving', 'half-day'),
			day('2027-11-26', 'Day after Thanksgiving', 'shutdown')
		]
	};
}

/**
 * @param {string} date
 * @param {string} name
 * @param {string} kind
 */
export function day(date, name, kind) {
	return { date, name, kind };
}

const floorWorksOn = ['worked', 'half-day'];
const plantWorksOn = ['public', 'worked', 'half-day', 'shutdown'];

/** Fourteen patterns; the ids are the shift codes of the HR system. */
export function shiftPatterns() {
	return [
		weekly('EARLY', 'Early', [0, 1, 2, 3, 4], '06:00-14:00', floorWorksOn),
		weekly('LATE', 'Late', [0, 1, 2, 3, 4], '14:00-22:00', floorWorksOn),
		weekly('NIGHT', 'Night', [0, 1, 2, 3, 6], '22:00-06:00', floorWorksOn),
		swap('SWAP-A', 'Early and late in turn, first early', '2027-01-04'),
		swap('SWAP-B', 'Early and late in turn, first late', '2027-01-11'),
		weekly('SAMPLE', 'Sampling', [0, 1, 2, 3, 4], '05:00-13:00', floorWorksOn),
		fourOnFourOff('4ON-DAY-A', '4 on 4 off, days, crew A', '2027-01-04', '06:00-18:00'),
		fourOnFourOff('4ON-DAY-B', '4 on 4 off, days, crew B', '2027-01-08', '06:00-18:00'),
		fourOnFourOff('4ON-NIGHT-A', '4 on 4 off, nights, crew A', '2027-01-06', '18:00-06:00'),
		fourOnFourOff('4ON-NIGHT-B', '4 on 4 off, nights, crew B', '2027-01-10', '18:00-06:00'),
		weekly('TRADES', 'Trades', [0, 1, 2, 3, 4], '06:30-15:00', ['worked', 'half-day', 'shutdown']),
		weekly('OFFICE', 'Office', [0, 1, 2, 3, 4], '08:00-16:30', ['worked']),
		weekly('EVENING', 'Evening cleaning', [0, 1, 2, 3, 4], '17:30-22:30', ['worked']),
		weekly('DEEP', 'Deep cleaning on Saturday night', [5], '18:00-02:00', ['worked'])
	];
}

/**
 * @param {string} id
 * @param {string} name
 * @param {readonly number[]} days days after Monday
 * @param {string} at
 * @param {readonly string[]} worksOn
 */
function weekly(id, name, days, at, worksOn) {
	return {
		id,
		name,
		anchor: '2027-01-04',
		cycleDays: 7,
		shifts: days.map((number) => ({ day: number, at })),
		worksOn: [...worksOn]
	};
}

/**
 * A week of early shifts, a week of late ones.
 * @param {string} id
 * @param {string} name
 * @param {string} anchor
 */
function swap(id, name, anchor) {
	const early = [0, 1, 2, 3, 4].map((number) => ({ day: number, at: '06:00-14:00' }));
	const late = [7, 8, 9, 10, 11].map((number) => ({ day: number, at: '14:00-22:00' }));
	return {
		id,
		name,
		anchor: anchor,
		cycleDays: 14,
		shifts: [...early, ...late],
		worksOn: [...floorWorksOn]
	};
}

/**
 * Four days of twelve hours, four days off; an eight-day cycle that no week can express.
 * @param {string} id
 * @param {string} name
 * @param {string} anchor
 * @param {string} at
 */
function fourOnFourOff(id, name, anchor, at) {
	return {
		id,
		name,
		anchor: anchor,
		cycleDays: 8,
		shifts: [0, 1, 2, 3].map((number) => ({ day: number, at })),
		worksOn: [...plantWorksOn]
	};
}
