import { controllers, doorGroups, doors } from './building.mjs';
import { people, tagged } from './people.mjs';
import { day, holidays, schedules } from './when.mjs';

/**
 * The edits that bring Larkfen Cold Store to no finding of severity error, in the order in which a person would make
 * them in the app. Each is a JSON Patch (RFC 6902); its `test` operations make sure that it meets what it mends.
 */

const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri'];

/** @param {readonly { id: string }[]} list @param {string} id */
function indexOf(list, id) {
	const index = list.findIndex((entry) => entry.id === id);
	if (index < 0) throw new Error(`nothing called ${id}`);
	return index;
}

/** @param {string} path @param {unknown} value */
const test = (path, value) => ({ op: 'test', path, value });
/** @param {string} path @param {unknown} value */
const replace = (path, value) => ({ op: 'replace', path, value });
/** @param {string} path @param {unknown} value */
const add = (path, value) => ({ op: 'add', path, value });

/** @param {string} id */
function schedulePath(id) {
	return `/schedules/${indexOf(schedules(), id)}`;
}

/** Dates that stand twice: the second entry goes, last one first so that places stay right. */
function removals() {
	const { days } = holidays();
	const seconds = days.flatMap(({ date }, index) =>
		days.findIndex((one) => one.date === date) < index ? [index] : []
	);
	return seconds.reverse().flatMap((index) => {
		const path = `/holidays/days/${index}`;
		return [test(path, days[index]), { op: 'remove', path }];
	});
}

/** @param {string} tag */
function personPath(tag) {
	const id = tagged(tag)[0]?.id ?? '';
	return { id, path: `/people/${indexOf(people(), id)}` };
}

export function mends() {
	const floorDays = schedulePath('floor-days');
	const cleaning = schedulePath('cleaning');
	const plantNights = schedulePath('plant-nights');
	const plant = `/doorGroups/${indexOf(doorGroups(), 'plant')}`;
	const wholeSite = `/doorGroups/${indexOf(doorGroups(), 'whole-site')}`;
	const sprinkler = `/doorGroups/${indexOf(doorGroups(), 'sprinkler-way')}`;
	const moved = personPath('moved-to-nights');
	const leaver = personPath('night-leaver');
	const floorCabinet = `/controllers/${indexOf(controllers(), 'c2')}`;
	const plantCabinet = `/controllers/${indexOf(controllers(), 'c3')}`;
	return [
		mend('saturday', 'Schedule “Floor, early and late”: Saturday as one stretch', [
			test(`${floorDays}/id`, 'floor-days'),
			replace(`${floorDays}/week/sat`, ['05:30-22:30'])
		]),
		mend('sampling', 'Schedule “Floor, early and late”: open from 04:30 on weekdays', [
			test(`${floorDays}/id`, 'floor-days'),
			...weekdays.map((weekday) => replace(`${floorDays}/week/${weekday}`, ['04:30-22:30']))
		]),
		mend(
			'cleaning',
			'Schedule “Cleaning”: Sunday from 02:30, half days as usual, nights before a holiday to their end',
			[
				test(`${cleaning}/id`, 'cleaning'),
				replace(`${cleaning}/week/sun`, ['02:30-06:00']),
				add(`${cleaning}/holidays/half-day`, 'normal'),
				replace(`${cleaning}/holidays/public`, ['00:00-02:30'])
			]
		),
		mend('plant-nights', 'Schedule “Plant, nights”: public holidays as usual', [
			test(`${plantNights}/id`, 'plant-nights'),
			replace(`${plantNights}/holidays/public`, 'normal')
		]),
		mend('repeated-holidays', 'Holidays: take the second entry of Memorial Day and of Labor Day out', removals()),
		mend('december', 'Holidays: the rest of the year, and complete until its end', [
			add('/holidays/days/-', day('2027-06-19', 'Juneteenth', 'public')),
			add('/holidays/days/-', day('2027-12-23', 'Half day before Christmas', 'half-day')),
			add('/holidays/days/-', day('2027-12-24', 'Christmas Day (observed)', 'public')),
			add('/holidays/days/-', day('2027-12-25', 'Christmas Day', 'public')),
			add('/holidays/days/-', day('2027-12-31', 'New Year’s Day 2028 (observed)', 'public')),
			replace('/holidays/coveredUntil', '2027-12-31')
		]),
		mend('moved-to-nights', 'The loader on nights: department Night crew, third wave', [
			test(`${moved.path}/id`, moved.id),
			replace(`${moved.path}/department`, 'Night crew'),
			replace(`${moved.path}/wave`, 'w3')
		]),
		mend('last-night', 'The night loader who leaves: last day is the Friday on which the last shift ends', [
			test(`${leaver.path}/id`, leaver.id),
			replace(`${leaver.path}/leavesOn`, '2027-04-30')
		]),
		mend('sprinkler-way', 'Door group “Way of the sprinkler fitters”: the dock entry, which was forgotten', [
			test(`${sprinkler}/id`, 'sprinkler-way'),
			add(`${sprinkler}/doors/1`, 'dock-entry')
		]),
		mend('pump-room', 'Doors: the door of the pump room, in the groups “Plant” and “Whole site”', [
			test(`${plant}/id`, 'plant'),
			test(`${wholeSite}/id`, 'whole-site'),
			add('/doors/-', pumpDoor()),
			add(`${plant}/doors/-`, 'pump'),
			add(`${wholeSite}/doors/-`, 'pump')
		]),
		mend('cabinets', 'Controllers: a larger supply for the floor, more template memory for the plant', [
			test(`${floorCabinet}/id`, 'c2'),
			replace(`${floorCabinet}/supplyMilliamps`, 4000),
			test(`${plantCabinet}/id`, 'c3'),
			replace(`${plantCabinet}/maxTemplates`, 500)
		])
	];
}

function pumpDoor() {
	const model = doors().find(({ id }) => id === 'engine-outer');
	return { ...model, id: 'pump', name: 'Pump room door', from: 'dock', to: 'pump', owner: 'Maintenance' };
}

/**
 * @param {string} id
 * @param {string} does
 * @param {readonly unknown[]} patch
 */
function mend(id, does, patch) {
	return { id, does, patch };
}
