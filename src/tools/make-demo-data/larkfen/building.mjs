/** The building of Larkfen Cold Store, as the installer's survey of October 2026 has it. */

/** Eight areas, one of them outside. */
export function areas() {
	return [
		{ id: 'yard', name: 'Yard and street', outside: true },
		{ id: 'offices', name: 'Offices and training room' },
		{ id: 'welfare', name: 'Lockers and canteen' },
		{ id: 'dock', name: 'Loading dock' },
		{ id: 'packing', name: 'Packing hall' },
		{ id: 'cold', name: 'Cold rooms' },
		{ id: 'engine', name: 'Engine room' },
		// On the floor plan, but locked on the day of the survey: its door was never entered.
		{ id: 'pump', name: 'Sprinkler pump room' }
	];
}

/** Sixteen doors. */
export function doors() {
	return [
		door('front', 'Front entrance', 'yard', 'offices', 'c1', 'Office'),
		door('office-rear', 'Office rear door', 'yard', 'offices', 'c1', 'Office'),
		door('staff', 'Staff entrance', 'yard', 'welfare', 'c1', 'Office'),
		door('office-corridor', 'Office corridor', 'offices', 'welfare', 'c1', 'Office'),
		door('gallery', 'Visitors’ gallery', 'offices', 'packing', 'c1', 'Packing'),
		door('dock-entry', 'Dock entry', 'welfare', 'dock', 'c2', 'Dock'),
		door('packing-entry', 'Packing hall entry', 'welfare', 'packing', 'c2', 'Packing'),
		door('dock-packing', 'Dock to packing hall', 'dock', 'packing', 'c2', 'Packing'),
		door('cold-1', 'Cold room 1 from the dock', 'dock', 'cold', 'c2', 'Picking'),
		door('cold-2', 'Cold room 2 from the dock', 'dock', 'cold', 'c2', 'Picking'),
		door('cold-pass', 'Cold rooms from packing', 'packing', 'cold', 'c2', 'Picking'),
		{ ...door('drivers', 'Drivers’ door', 'yard', 'dock', 'c3', 'Dock'), exit: 'reader' },
		door('packing-yard', 'Packing yard door', 'yard', 'packing', 'c3', 'Packing'),
		{
			...door('engine-outer', 'Engine room outer door', 'yard', 'engine', 'c3', 'Refrigeration'),
			identify: 'finger-and-pin'
		},
		{
			...door('engine-inner', 'Engine room inner door', 'dock', 'engine', 'c3', 'Refrigeration'),
			identify: 'finger-and-pin'
		},
		door('engine-cold', 'Engine room to cold rooms', 'engine', 'cold', 'c3', 'Refrigeration')
	];
}

/**
 * @param {string} id
 * @param {string} name
 * @param {string} from
 * @param {string} to
 * @param {string} controller
 * @param {string} owner
 */
function door(id, name, from, to, controller, owner) {
	return { id, name, from, to, exit: 'free', identify: 'finger', controller, owner };
}

/** Groups of doors; the office rear door is in none, the visitors' group has none. */
export function doorGroups() {
	const wholeSite = doors()
		.map(({ id }) => id)
		.filter((id) => id !== 'office-rear');
	return [
		{ id: 'front', name: 'Front of house', doors: ['front', 'office-corridor'] },
		{ id: 'way-in', name: 'Way in for staff', doors: ['staff'] },
		{ id: 'floor', name: 'Floor', doors: ['dock-entry', 'packing-entry', 'dock-packing'] },
		{ id: 'cold-rooms', name: 'Cold rooms', doors: ['cold-1', 'cold-2', 'cold-pass'] },
		{ id: 'yard-side', name: 'Yard side', doors: ['drivers', 'packing-yard'] },
		{ id: 'plant', name: 'Plant', doors: ['engine-outer', 'engine-inner', 'engine-cold'] },
		{ id: 'gallery', name: 'Gallery', doors: ['gallery'] },
		// Staff entrance and engine room, but not the dock entry between them.
		{ id: 'sprinkler-way', name: 'Way of the sprinkler fitters', doors: ['staff', 'engine-inner'] },
		{ id: 'whole-site', name: 'Whole site', doors: wholeSite },
		{ id: 'visitors', name: 'Visitors', doors: [] }
	];
}

/** Three controllers and what each of them holds. */
export function controllers() {
	return [
		{
			id: 'c1',
			name: 'Office cabinet',
			maxDoors: 8,
			maxTemplates: 1000,
			maxSchedules: 16,
			maxHolidays: 32,
			supplyMilliamps: 3000
		},
		{
			id: 'c2',
			name: 'Floor cabinet',
			maxDoors: 8,
			maxTemplates: 1000,
			maxSchedules: 16,
			maxHolidays: 32,
			supplyMilliamps: 2500
		},
		{
			id: 'c3',
			name: 'Plant cabinet',
			maxDoors: 8,
			maxTemplates: 200,
			maxSchedules: 16,
			maxHolidays: 32,
			supplyMilliamps: 3500
		}
	];
}

/** One reader for each door, a second one inside the drivers' door; two to a module. */
export function readers() {
	/** @type {Map<string, number>} */
	const countByController = new Map();
	const places = doors().flatMap((one) => (one.exit === 'reader' ? [one, { ...one, inside: true }] : [one]));
	return places.map((place) => {
		const controller = place.controller ?? 'c1';
		const count = countByController.get(controller) ?? 0;
		countByController.set(controller, count + 1);
		return {
			id: `r-${place.id}${'inside' in place ? '-exit' : ''}`,
			door: place.id,
			controller,
			module: `${controller}-m${Math.floor(count / 2) + 1}`,
			milliamps: 450
		};
	});
}
