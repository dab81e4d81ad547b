/** How the parts of a document are written in the open data model: what the help sheet shows, field by field. */
export interface Mapped {
	/** In the document. */
	readonly ours: string;
	/** In the model; empty where it has no place. */
	readonly theirs: string;
	readonly how: string;
}

export const openModelMapping: readonly Mapped[] = [
	{ ours: 'schedules[].id', theirs: 'Schedule.token', how: 'As it is: both have 64 characters at most.' },
	{ ours: 'schedules[].name', theirs: 'Schedule.Name', how: 'Cut after 64 characters, the whole then in Description.' },
	{
		ours: 'schedules[].week',
		theirs: 'Schedule.Standard',
		how: 'Weekly series in local time from 1970 on that end by midnight, one for all weekdays with the same hours; a night in two parts.'
	},
	{
		ours: 'schedules[].from, until',
		theirs: 'Schedule.Standard, UNTIL',
		how: 'Only where they lie in the horizon; needs a device with extended recurrence.'
	},
	{
		ours: 'holidays.days[].kind',
		theirs: 'SpecialDayGroup.token, Name',
		how: 'A group for each kind that has dates, shared by the schedules.'
	},
	{
		ours: 'holidays.days[].date, name',
		theirs: 'SpecialDayGroup.Days',
		how: 'An event from midnight to midnight, its name as SUMMARY.'
	},
	{
		ours: 'schedules[].holidays: closed, or nothing said',
		theirs: 'SpecialDaysSchedule without TimeRange',
		how: 'Closed on the days of the group.'
	},
	{
		ours: 'schedules[].holidays: a list of stretches',
		theirs: 'SpecialDaysSchedule.TimeRange',
		how: 'From inclusive, Until exclusive; Until left out at midnight.'
	},
	{ ours: 'schedules[].holidays: normal', theirs: 'no SpecialDaysSchedule', how: 'The week holds on.' },
	{
		ours: 'what holidays and limits do to nights',
		theirs: 'SpecialDayGroup of the schedule’s own',
		how: 'Each date with other minutes than its week and kind give.'
	},
	{ ours: 'accessProfiles[].id, name', theirs: 'AccessProfile.token, Name', how: 'As schedules.' },
	{
		ours: 'accessProfiles[].entries[]',
		theirs: 'AccessPolicy.ScheduleToken, Entity',
		how: 'One policy for each access point of each door of the group.'
	},
	{
		ours: 'doors[].id, exit',
		theirs: 'AccessPolicy.Entity',
		how: 'The access point of the way in has the id of the door; one of a reader on the exit has .exit after it.'
	},
	{
		ours: 'people[].id',
		theirs: 'Credential.token, CredentialHolderReference',
		how: 'One credential for each person.'
	},
	{
		ours: 'people[].startsOn, leavesOn',
		theirs: 'Credential.ValidFrom, ValidTo',
		how: 'From the midnight of the first day to the midnight after the last.'
	},
	{
		ours: 'assignments[]',
		theirs: 'CredentialAccessProfile.AccessProfileToken, ValidFrom, ValidTo',
		how: 'Written out for everybody matched; periods of one profile that touch are one.'
	},
	{
		ours: 'doors[].identify, privacy.templates',
		theirs: '',
		how: 'No identifiers: the system that enrolls adds them.'
	},
	{ ours: 'everything else', theirs: '', how: 'Named in the report, part by part.' }
];
