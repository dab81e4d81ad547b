/**
 * The rollout document as the oracle sees it: plain shapes written down a second time from the document format, only as
 * far as access is concerned. It shares nothing with the product, not even the schema, so that a default that is filled
 * in wrongly there shows as a disagreement.
 */

type Maybe<T> = T | null | undefined;

export type Day = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';

export interface PlainDocument {
	format: 'doorwright.rollout';
	version: 1;
	site: {
		name: string;
		timeZone: string;
		country?: Maybe<string>;
		region?: Maybe<string>;
		arriveEarlyMinutes?: Maybe<number>;
	};
	horizon: { from: string; until: string };
	areas?: Maybe<{ id: string; outside?: Maybe<boolean> }[]>;
	doors?: Maybe<PlainDoor[]>;
	doorGroups?: Maybe<{ id: string; doors?: Maybe<readonly string[]> }[]>;
	controllers?: Maybe<PlainController[]>;
	readers?: Maybe<
		{ id: string; door: string; controller?: Maybe<string>; module?: Maybe<string>; milliamps?: Maybe<number> }[]
	>;
	schedules?: Maybe<PlainSchedule[]>;
	holidays?: Maybe<{
		coveredUntil?: Maybe<string>;
		days?: Maybe<{ date: string; kind: string; name?: Maybe<string> }[]>;
	}>;
	people?: Maybe<PlainPerson[]>;
	shiftPatterns?: Maybe<PlainPattern[]>;
	absences?: Maybe<{ person: string; from?: Maybe<string>; until?: Maybe<string> }[]>;
	accessProfiles?: Maybe<{ id: string; entries?: Maybe<readonly { doorGroup: string; schedule: string }[]> }[]>;
	assignments?: Maybe<PlainAssignment[]>;
	enrollment?: Maybe<{ waves?: Maybe<{ id: string; enrollBy?: Maybe<string>; goLive?: Maybe<string> }[]> }>;
}

export interface PlainDoor {
	id: string;
	from: string;
	to: string;
	exit?: Maybe<'free' | 'reader'>;
	identify?: Maybe<'finger' | 'finger-and-pin' | 'card' | 'card-and-finger'>;
	controller?: Maybe<string>;
}

export interface PlainController {
	id: string;
	maxDoors?: Maybe<number>;
	maxTemplates?: Maybe<number>;
	maxSchedules?: Maybe<number>;
	maxHolidays?: Maybe<number>;
	supplyMilliamps?: Maybe<number>;
}

export interface PlainSchedule {
	id: string;
	from?: Maybe<string>;
	until?: Maybe<string>;
	week?: Maybe<Partial<Record<Day, Maybe<string[]>>>>;
	holidays?: Maybe<Record<string, Maybe<'normal' | 'closed' | string[]>>>;
}

export interface PlainPerson {
	id: string;
	department?: Maybe<string>;
	job?: Maybe<string>;
	startsOn?: Maybe<string>;
	leavesOn?: Maybe<string>;
	shiftPattern?: Maybe<string>;
	workAreas?: Maybe<readonly string[]>;
	wave?: Maybe<string>;
}

export interface PlainPattern {
	id: string;
	anchor: string;
	cycleDays: number;
	shifts?: Maybe<readonly { day: number; at: string }[]>;
	worksOn?: Maybe<string[]>;
}

export interface PlainAssignment {
	id: string;
	who: {
		everyone?: Maybe<boolean>;
		people?: Maybe<string[]>;
		departments?: Maybe<string[]>;
		jobs?: Maybe<string[]>;
		waves?: Maybe<string[]>;
	};
	accessProfile: string;
	from?: Maybe<string>;
	until?: Maybe<string>;
}

/** A list that may be left out or null, which both mean empty. */
export function all<T>(list: Maybe<readonly T[]>): readonly T[] {
	return list ?? [];
}

/** False for what is left out or null. */
export function isGiven<T>(value: T): value is NonNullable<T> {
	return value !== null && value !== undefined;
}

/** The entry of an id; the document is one that was accepted, so it is there. */
export function byId<T extends { id: string }>(list: Maybe<readonly T[]>, id: string): T {
	const found = all(list).find((entry) => entry.id === id);
	if (found === undefined) throw new Error(`nothing has the id ${id}`);
	return found;
}

/** True when a date lies between two inclusive limits; a limit that is left out is none. */
export function isWithin(date: string, from: Maybe<string>, until: Maybe<string>): boolean {
	return (!isGiven(from) || from <= date) && (!isGiven(until) || date <= until);
}
