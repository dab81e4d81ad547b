/** What the open data model cannot hold as it is, case by case; each kind with its reason. */
export const reportKinds = {
	'clock-change': {
		effect: 'differs',
		why: 'The model compares with the local time that the clock shows. A time that a clock change skips or repeats is read by Doorwright as RFC 5545, 3.3.5 says, so on these dates the minutes differ.'
	},
	'identifier-missing': {
		effect: 'to complete',
		why: 'The model asks for at least one identifier in each credential. Doorwright holds no card numbers, no codes and no biometric data: the system that enrolls adds identifiers. Whether somebody is enrolled is left out on purpose.'
	},
	'kind-undecided': {
		effect: 'written otherwise',
		why: 'A kind of holiday that a schedule says nothing of has no form in the model. It is written as closed, which is how it is treated, and it remains a finding.'
	},
	'kind-normal': {
		effect: 'written otherwise',
		why: 'A kind that is treated as an ordinary day is written by not naming its group in the schedule.'
	},
	'kind-without-dates': {
		effect: 'left out',
		why: 'No date of this kind is listed, and a group without days says nothing.'
	},
	'overnight-split': {
		effect: 'written otherwise',
		why: 'A period of the model ends by midnight: the stretch is written in two parts, of two dates.'
	},
	'own-special-days': {
		effect: 'written otherwise',
		why: 'On these dates the hours are neither those of the week nor those of the kind of holiday: a night before is cut or missing, a night of a holiday runs on, or the schedule is not valid. They are a group of special days of its own.'
	},
	'validity-limits': {
		effect: 'written otherwise',
		why: 'A schedule of the model has no first and last date. They stand in the recurrence, which needs a device with extended recurrence.'
	},
	'horizon-only': {
		effect: 'left out',
		why: 'What follows from holidays and from limits is written for the dates of the horizon and for the holidays that are listed; on other dates the week alone holds.'
	},
	'time-zone': {
		effect: 'left out',
		why: 'Schedules of the model are in the local time of the device, which must be set to the time zone of the site.'
	},
	'name-cut': { effect: 'written otherwise', why: 'A name of the model has at most 64 characters.' },
	'token-changed': {
		effect: 'written otherwise',
		why: 'A token has at most 64 characters and is unique among its kind.'
	},
	'exit-reader': {
		effect: 'written otherwise',
		why: 'An access point of the model is one direction of a door. A door with a reader on its exit is two access points, and whoever may open it may open it both ways.'
	},
	'assignment-expanded': {
		effect: 'written otherwise',
		why: 'The model assigns access profiles to credentials and knows no departments, jobs or waves. Everybody matched on the day of the export has an entry; who joins later has none until the next export.'
	},
	'assignment-of-nobody': {
		effect: 'left out',
		why: 'Nobody is matched, so that there is no credential to write it to.'
	},
	'profile-copied': {
		effect: 'written otherwise',
		why: 'A credential names an access profile for one period. Where somebody has it for several that do not touch, each further period names a copy of the profile.'
	},
	'date-limits': {
		effect: 'written otherwise',
		why: 'Dates that are inclusive here are written as instants, the end as the midnight after the last day. A device that knows no times of day in limits (ValiditySupportsTimeValue false) reads the end as a whole day: there the date must be set one day earlier.'
	},
	'not-part': {
		effect: 'left out',
		why: 'The model has no place for it among schedules, special days, access profiles and credentials.'
	}
} as const satisfies Record<
	string,
	{ effect: 'differs' | 'written otherwise' | 'left out' | 'to complete'; why: string }
>;

export type ReportKind = keyof typeof reportKinds;

/** One case: where in the document, what it is about, what became of it. */
export interface ReportItem {
	readonly kind: ReportKind;
	/** Path in the document, as faults have it. */
	readonly path: string;
	readonly what: string;
	readonly effect: string;
	readonly why: string;
	/** The dates that it concerns, where it is about dates. */
	readonly dates?: readonly string[];
	/** Minutes on these dates in which the two readings differ. */
	readonly minutes?: number;
}

/** Makes an item of the report with the reason of its kind. */
export function reported(
	kind: ReportKind,
	path: string,
	what: string,
	more: Pick<ReportItem, 'dates' | 'minutes'> = {}
): ReportItem {
	return { kind, path, what, ...reportKinds[kind], ...more };
}
