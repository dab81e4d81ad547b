import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

const statute = 'C.R.S. 6-1-1314';

export default definePack({
	id: 'us-co',
	row: 30,
	title: 'Colorado, United States',
	covers: 'Biometric identifiers of people in Colorado whatever the size of the controller, employees included.',
	rules: [
		{
			id: 'purpose-ended',
			title: 'The initial purpose has been satisfied',
			triggers: ['left', 'withdrew'],
			period: { unit: 'none' },
			statute,
			section: 'initial purpose satisfied',
			claims: [
				{ standing: 'settled', about: 'Deletion is due when the initial purpose has been satisfied.' },
				{ standing: 'assumption', about: 'The purpose is satisfied on the trigger date, and that day is the last.' }
			],
			cautions: []
		},
		{
			id: 'two-years',
			title: '24 months after the last interaction',
			triggers: ['last-use'],
			period: { unit: 'months', count: 24 },
			statute,
			section: '24 months after the last interaction',
			claims: [{ standing: 'from memory', about: 'The figure of 24 months was not read in the statute.' }],
			cautions: ['From 29 February the limit is 28 February; 1 March is the less cautious reading.']
		},
		{
			id: 'forty-five-days',
			title: '45 days after deciding that the template is no longer needed',
			triggers: ['unneeded'],
			period: { unit: 'days', count: 45 },
			statute,
			section: '45 days after a review finds it no longer needed',
			claims: [{ standing: 'from memory', about: 'The figure of 45 days was not read in the statute.' }],
			cautions: [
				'The earliest feasible date is asked for; 45 days are its outer limit. One extension exists and is not counted here.',
				'The review that decides this is due at least once a year.'
			]
		}
	],
	sitePeriodRequired: null,
	response: null,
	disclosure: null,
	cautions: [
		'A written policy with the schedule of retention is required.',
		'Consent may be made a condition of work only for some uses, access to secure places among them.'
	],
	source: 'HB 24-1130, C.R.S. 6-1-1314, in force since 1 July 2025; the figures are from memory',
	lastReviewed: localDate('2026-11-25')
});
