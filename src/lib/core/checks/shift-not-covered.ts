import { defineCheck } from './define-check';
import { uncoveredCases, uncoveredMessage } from './support/uncovered';

export default defineCheck({
	code: 'shift-not-covered',
	severity: 'error',
	title: 'Shift not covered',
	why: 'During a shift, or in the time of arriving early, a work area cannot be reached without asking somebody to open.',
	mend: 'Widen the schedule of the door on the way, give the missing door group, or correct the shift, the work areas or the dates of the assignment.',
	source:
		'Rollout document, meaning of shifts; a shift belongs to the day on which it starts: common practice, no source',
	mendAt: ({ person }) => `people/${encodeURIComponent(String(person))}`,
	find: (input) => uncoveredCases(input, false),
	tellsFrom: ({ areas }) => [areas],
	message: (found, rollout) => uncoveredMessage(found, rollout)
});
