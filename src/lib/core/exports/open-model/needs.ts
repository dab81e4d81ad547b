import type { OpenModel } from './shapes';

/**
 * What a device must support at least to take the model, by the names of its capabilities.
 * @source ONVIF Schedule, Access Rules and Credential Service specifications, `ServiceCapabilities`
 */
export function capabilitiesFor({ Schedule, SpecialDayGroup, AccessProfile, Credential }: OpenModel) {
	const isTimed = Credential.some(({ ValidFrom, ValidTo }) => ValidFrom !== undefined || ValidTo !== undefined);
	const given = Credential.flatMap((one) => one.CredentialAccessProfile);
	const isGivenTimed = given.some(({ ValidFrom, ValidTo }) => ValidFrom !== undefined || ValidTo !== undefined);
	return {
		MaxSchedules: Schedule.length,
		MaxTimePeriodsPerDay: most(Schedule.map(periodsPerDay)),
		MaxSpecialDayGroups: SpecialDayGroup.length,
		MaxDaysInSpecialDayGroup: most(SpecialDayGroup.map(({ Days }) => Days.split('BEGIN:VEVENT').length - 1)),
		MaxSpecialDaysSchedules: most(Schedule.map(({ SpecialDays }) => SpecialDays.length)),
		SpecialDaysSupported: SpecialDayGroup.length > 0,
		ExtendedRecurrenceSupported: Schedule.some(({ Standard }) => Standard.includes('UNTIL=')),
		MaxAccessProfiles: AccessProfile.length,
		MaxAccessPoliciesPerAccessProfile: most(AccessProfile.map(({ AccessPolicy }) => AccessPolicy.length)),
		MultipleSchedulesPerAccessPointSupported: AccessProfile.some(
			({ AccessPolicy }) => new Set(AccessPolicy.map(({ Entity }) => Entity)).size < AccessPolicy.length
		),
		MaxCredentials: Credential.length,
		MaxAccessProfilesPerCredential: most(Credential.map((one) => one.CredentialAccessProfile.length)),
		CredentialValiditySupported: isTimed,
		CredentialAccessProfileValiditySupported: isGivenTimed,
		ValiditySupportsTimeValue: isTimed || isGivenTimed,
		ClientSuppliedTokenSupported: true
	};
}

/** The most periods that a day has in the week, or that a special day has. */
function periodsPerDay({ Standard, SpecialDays }: OpenModel['Schedule'][number]): number {
	const perDay = new Map<string, number>();
	for (const [, days = ''] of Standard.matchAll(/BYDAY=([A-Z,]+)/g)) {
		for (const day of days.split(',')) perDay.set(day, (perDay.get(day) ?? 0) + 1);
	}
	return most([...perDay.values(), ...SpecialDays.map(({ TimeRange }) => TimeRange.length)]);
}

function most(counts: readonly number[]): number {
	return counts.reduce((a, b) => Math.max(a, b), 0);
}
