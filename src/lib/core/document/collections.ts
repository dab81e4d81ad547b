/**
 * The lists of the document, where they stand, what identifies an entry, and what people call one: the one table from
 * which id checks, the store's rows and the edits are made.
 */
export const collections = {
	areas: list('areas', 'id', 'area', 'an area'),
	doors: list('doors', 'id', 'door', 'a door'),
	doorGroups: list('doorGroups', 'id', 'door group', 'a door group'),
	controllers: list('controllers', 'id', 'controller', 'a controller'),
	readers: list('readers', 'id', 'reader', 'a reader'),
	schedules: list('schedules', 'id', 'schedule', 'a schedule'),
	holidays: list('holidays.days', null, 'holiday', 'a holiday'),
	people: list('people', 'id', 'person', 'a person'),
	shiftPatterns: list('shiftPatterns', 'id', 'shift pattern', 'a shift pattern'),
	absences: list('absences', null, 'absence', 'an absence'),
	accessProfiles: list('accessProfiles', 'id', 'access profile', 'an access profile'),
	assignments: list('assignments', 'id', 'assignment', 'an assignment'),
	waves: list('enrollment.waves', 'id', 'wave', 'a wave'),
	captureClasses: list('enrollment.captureClasses', 'id', 'capture class', 'a capture class'),
	stations: list('enrollment.stations', 'id', 'station', 'a station'),
	walks: list('enrollment.walks', null, 'walk', 'a walk'),
	awayLimits: list('enrollment.awayLimits', null, 'away-limit', 'an away-limit'),
	bookings: list('enrollment.bookings', null, 'booking', 'a booking'),
	visits: list('enrollment.visits', null, 'visit', 'a visit'),
	notices: list('privacy.notices', 'id', 'notice', 'a notice'),
	consents: list('privacy.consents', null, 'consent entry', 'a consent entry'),
	templates: list('privacy.templates', null, 'template', 'a template'),
	holds: list('privacy.holds', null, 'hold', 'a hold'),
	templatePlaces: list('privacy.places', 'id', 'place of templates', 'a place of templates'),
	erasureOrders: list('privacy.erasureOrders', 'id', 'erasure work order', 'an erasure work order'),
	requests: list('privacy.requests', 'id', 'request', 'a request')
} as const;

export type CollectionName = keyof typeof collections;

/** A list of the document. `key` is the field that identifies an entry, null where entries are told apart by place. */
export interface Collection {
	/** Keys from the root, joined by dots. */
	readonly path: string;
	readonly key: 'id' | null;
	/** What people call one entry, without and with article. */
	readonly one: string;
	readonly a: string;
}

/** Fields that name an entry of a list, as patterns of `placesAt`. */
export const links: readonly { readonly at: string; readonly to: CollectionName }[] = [
	{ at: 'doors[].from', to: 'areas' },
	{ at: 'doors[].to', to: 'areas' },
	{ at: 'doors[].controller', to: 'controllers' },
	{ at: 'doorGroups[].doors[]', to: 'doors' },
	{ at: 'readers[].door', to: 'doors' },
	{ at: 'readers[].controller', to: 'controllers' },
	{ at: 'people[].shiftPattern', to: 'shiftPatterns' },
	{ at: 'people[].workAreas[]', to: 'areas' },
	{ at: 'people[].wave', to: 'waves' },
	{ at: 'people[].captureClass', to: 'captureClasses' },
	{ at: 'absences[].person', to: 'people' },
	{ at: 'accessProfiles[].entries[].doorGroup', to: 'doorGroups' },
	{ at: 'accessProfiles[].entries[].schedule', to: 'schedules' },
	{ at: 'assignments[].accessProfile', to: 'accessProfiles' },
	{ at: 'assignments[].who.people[]', to: 'people' },
	{ at: 'assignments[].who.waves[]', to: 'waves' },
	{ at: 'enrollment.stations[].area', to: 'areas' },
	{ at: 'enrollment.walks[].between[]', to: 'areas' },
	{ at: 'enrollment.bookings[].person', to: 'people' },
	{ at: 'enrollment.bookings[].station', to: 'stations' },
	{ at: 'enrollment.visits[].person', to: 'people' },
	{ at: 'enrollment.visits[].station', to: 'stations' },
	{ at: 'privacy.notices[].replaces', to: 'notices' },
	{ at: 'privacy.consents[].person', to: 'people' },
	{ at: 'privacy.consents[].notice', to: 'notices' },
	{ at: 'privacy.templates[].person', to: 'people' },
	{ at: 'privacy.holds[].person', to: 'people' },
	{ at: 'privacy.erasureOrders[].person', to: 'people' },
	{ at: 'privacy.requests[].person', to: 'people' }
];

function list<P extends string, K extends 'id' | null>(path: P, key: K, one: string, a: string) {
	return { path, key, one, a } satisfies Collection;
}
