import { defineCheck } from './define-check';

export default defineCheck({
	code: 'holiday-missing',
	severity: 'warning',
	title: 'Public holiday not listed',
	why:
		'On a public holiday that is not in the list, doors open and shifts count as on any other day of the week. The list ' +
		'is the official one of the country and region, so far as the source has it; an authority can add a day late.',
	mend: 'Add the date to the holidays with the kind that fits. If the site works as usual on it, add it all the same, with a kind that schedules treat as normal.',
	source:
		'Official public holidays by the library date-holidays 3.37.0 (ISC AND CC-BY-3.0), corrected where it differs from the lists of gov.uk, 5 U.S.C. 6103 and others',
	mendAt: () => 'holidays',
	dependsOn: ({ site, horizon, holidays }) => [JSON.stringify([site, horizon]), holidays.days],
	async find({ rollout }) {
		const { site, horizon, holidays } = rollout;
		if (site.country === null) return [];
		const { placeName, statutoryHolidays } = await import('../calendar/statutory-holidays');
		// A listed date counts whatever its kind.
		const listed = new Set(holidays.days.map((day) => day.date));
		return statutoryHolidays(site, horizon.from, horizon.until)
			.filter(({ date }) => !listed.has(date))
			.map(({ date, name }) => ({ subject: {}, dates: [date], facts: { name, place: placeName(site) } }));
	},
	message: ({ dates, facts }) =>
		`${facts?.['name'] ?? 'A public holiday'} on ${dates?.[0] ?? 'a date in the horizon'} is a public holiday of ` +
		`${facts?.['place'] ?? 'the country and region of the site'}, and is not in the list of holidays.`
});
