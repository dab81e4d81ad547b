import { defineCheck } from './define-check';
import { uncoveredCases, uncoveredMessage } from './support/uncovered';

export default defineCheck({
	code: 'holiday-lockout',
	severity: 'error',
	title: 'Locked out on a holiday',
	why: 'Somebody works on a holiday on which a door on the way to the work does not open for them.',
	mend: 'Let the schedule of that door do on this kind of holiday what the shift needs; or take the kind from the days on which the pattern works.',
	source:
		'Rollout document, meaning of shifts; a shift belongs to the day on which it starts: common practice, no source',
	mendAt: ({ person }) => `people/${encodeURIComponent(String(person))}`,
	find: (input) => uncoveredCases(input, true),
	tellsFrom: ({ areas }) => [areas],
	message: (found, rollout) => uncoveredMessage(found, rollout, ' on or around a holiday')
});
