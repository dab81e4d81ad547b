import { defineCheck } from './define-check';

export default defineCheck({
	code: 'holiday-calendar-short',
	severity: 'error',
	title: 'Holiday list ends too early',
	why: 'Past the end of the list every holiday looks like an ordinary day, and doors open or stay shut as on one.',
	mend: 'Complete the list of holidays to the end of the horizon, then move the date up to which it is complete.',
	source: 'Rollout document, findings; common practice, no source',
	mendAt: () => 'holidays',
	dependsOn: ({ holidays, horizon }) => [holidays.coveredUntil, horizon.until],
	find: ({ rollout }) => {
		const { coveredUntil } = rollout.holidays;
		return coveredUntil === null || coveredUntil < rollout.horizon.until ? [{ subject: {} }] : [];
	},
	message: (_, rollout) => {
		const { coveredUntil } = rollout.holidays;
		const end = `the horizon ends on ${rollout.horizon.until}`;
		return coveredUntil === null
			? `Nobody has said up to which date the list of holidays is complete; ${end}.`
			: `The list of holidays is complete up to ${coveredUntil} only; ${end}.`;
	}
});
