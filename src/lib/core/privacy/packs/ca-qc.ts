import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

export default definePack({
	id: 'ca-qc',
	row: 70,
	title: 'Quebec, Canada',
	covers: 'Biometric characteristics used to verify or confirm who a person is.',
	rules: [
		{
			id: 'purpose-ended',
			title: 'The purpose is met, or its reason no longer exists',
			triggers: ['left', 'withdrew', 'unneeded'],
			period: { unit: 'none' },
			statute: 'CQLR, c. C-1.1',
			section: 'section 44',
			claims: [
				{ standing: 'settled', about: 'Destroyed as soon as the purpose is met or the reason no longer exists.' }
			],
			cautions: ['That the last day employed or the withdrawal ends the purpose is for counsel to confirm.']
		}
	],
	sitePeriodRequired: null,
	response: null,
	disclosure: {
		daysBefore: 60,
		does: "The database is disclosed to the Commission d'accès à l'information.",
		source: 'CQLR, c. C-1.1, section 45, as in force since 22 September 2022',
		claims: [
			{ standing: 'settled', about: 'No later than 60 days before the database is put into service.' },
			{
				standing: 'assumption',
				about: 'Counted as 60 days before go-live; whether both end days count is not settled, so allow a day more.'
			}
		]
	},
	cautions: [
		'Express consent comes first, only as few characteristics as needed are taken, and no other use is made of them.',
		'Any technique that verifies who somebody is by biometrics is also notified before it is used.'
	],
	source: 'Act to establish a legal framework for information technology, CQLR, c. C-1.1, sections 44 and 45',
	lastReviewed: localDate('2026-11-25')
});
