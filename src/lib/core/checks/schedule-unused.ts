import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'schedule-unused',
	severity: 'note',
	title: 'Schedule not used',
	why: 'No access profile uses it.',
	mend: 'Use it in an entry of a profile, or remove it.',
	source: 'Rollout document, findings',
	mendAt: ({ schedule }) => `schedules/${encodeURIComponent(String(schedule))}`,
	dependsOn: ({ schedules, accessProfiles }) => [schedules, accessProfiles],
	find: ({ rollout }) => {
		const used = new Set(rollout.accessProfiles.flatMap(({ entries }) => entries.map(({ schedule }) => schedule)));
		return rollout.schedules.flatMap(({ id }) => (used.has(id) ? [] : [{ subject: { schedule: id } }]));
	},
	message: ({ subject }, rollout) =>
		`Schedule ${nameOf(rollout.schedules, subject['schedule'])} is in no entry of any access profile.`
});
