/**
 * The entities of the open data model that are written, with the names of its fields. A field that may be left out is left out,
 * never null.
 * @source ONVIF Schedule Service, Access Rules Service and Credential Service specifications (`doc/Schedule.xml`,
 * `doc/AccessRules.xml`, `doc/Credential.xml` of the public repository)
 */

export interface TimePeriod {
	/** xs:time, inclusive. */
	readonly From: string;
	/** xs:time, exclusive and later than `From`; until midnight where left out. */
	readonly Until?: string;
}

export interface SpecialDaysSchedule {
	readonly GroupToken: string;
	/** None means closed on the days of the group. */
	readonly TimeRange: readonly TimePeriod[];
}

export interface OpenSchedule {
	readonly token: string;
	readonly Name: string;
	readonly Description?: string;
	/** An iCalendar object. */
	readonly Standard: string;
	readonly SpecialDays: readonly SpecialDaysSchedule[];
}

export interface SpecialDayGroup {
	readonly token: string;
	readonly Name: string;
	readonly Description?: string;
	/** An iCalendar object with an event for each day. */
	readonly Days: string;
}

export interface AccessPolicy {
	readonly ScheduleToken: string;
	/** Token of an access point: one direction of a door. */
	readonly Entity: string;
}

export interface OpenAccessProfile {
	readonly token: string;
	readonly Name: string;
	readonly Description?: string;
	readonly AccessPolicy: readonly AccessPolicy[];
}

export interface CredentialAccessProfile {
	readonly AccessProfileToken: string;
	/** xs:dateTime. */
	readonly ValidFrom?: string;
	readonly ValidTo?: string;
}

export interface Credential {
	readonly token: string;
	readonly CredentialHolderReference: string;
	readonly ValidFrom?: string;
	readonly ValidTo?: string;
	readonly CredentialAccessProfile: readonly CredentialAccessProfile[];
}

export interface OpenModel {
	readonly SpecialDayGroup: readonly SpecialDayGroup[];
	readonly Schedule: readonly OpenSchedule[];
	readonly AccessProfile: readonly OpenAccessProfile[];
	readonly Credential: readonly Credential[];
}
