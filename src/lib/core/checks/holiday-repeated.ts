import { counted, listed } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'holiday-repeated',
	severity: 'error',
	title: 'Holiday listed twice',
	why: 'Of two entries for one date only the first counts; if their kinds differ, one of them is silently ignored.',
	mend: 'Remove the entry that is not meant.',
	source: 'Rollout document, meaning of schedules',
	mendAt: () => 'holidays',
	dependsOn: ({ holidays }) => [holidays.days],
	find: ({ rollout }) => {
		const seen = new Set<string>();
		const dates = rollout.holidays.days
			.map(({ date }) => date)
			.filter((date) => {
				const isRepeat = seen.has(date);
				seen.add(date);
				return isRepeat;
			});
		return dates.length === 0 ? [] : [{ subject: {}, dates, count: new Set(dates).size }];
	},
	message: ({ dates = [] }) => {
		const distinct = [...new Set(dates)].sort();
		return `${counted(distinct.length, 'date')} in the list of holidays ${distinct.length === 1 ? 'stands' : 'stand'} more than once: ${listed(distinct)}. Only the first entry of a date counts.`;
	}
});
