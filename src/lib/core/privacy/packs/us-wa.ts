import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

export default definePack({
	id: 'us-wa',
	row: 40,
	title: 'Washington, United States',
	covers: 'Biometric identifiers enrolled in a database for a commercial purpose; a security purpose is defined apart.',
	rules: [],
	sitePeriodRequired:
		'RCW 19.375.020(4) keeps a template no longer than reasonably necessary and names no number of days.',
	response: null,
	disclosure: null,
	cautions: [
		'The site gives its own period, with its reason, as days after leaving: without it no date can be reckoned.',
		'Whether access to doors falls under a commercial purpose at all is for counsel to say.',
		'The My Health My Data Act also reaches biometric data and is not reckoned here.'
	],
	source: 'RCW 19.375.020',
	lastReviewed: localDate('2026-11-25')
});
