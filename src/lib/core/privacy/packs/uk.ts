import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

export default definePack({
	id: 'uk',
	row: 50,
	title: 'United Kingdom',
	covers: 'Biometric data that identify a person, a special category of personal data.',
	rules: [
		{
			id: 'purpose-ended',
			title: 'No longer necessary, or consent withdrawn: erased without undue delay',
			triggers: ['left', 'withdrew', 'unneeded'],
			period: { unit: 'none' },
			statute: 'UK GDPR',
			section: 'article 17(1)(a) and (b)',
			claims: [
				{
					standing: 'assumption',
					about: 'The law says "without undue delay" and has no number of days; the trigger date itself is our reading.'
				}
			],
			cautions: ['Where another legal ground than consent carries the processing, withdrawal alone may not end it.']
		}
	],
	sitePeriodRequired: null,
	response: {
		months: 1,
		extendedMonths: 3,
		source:
			'UK GDPR, article 12(3); the corresponding date rule of Dodds v Walker [1981] 1 WLR 1027; practice of the ICO',
		claims: [
			{ standing: 'settled', about: 'A month ends on the corresponding date, or on the last day of a shorter month.' },
			{
				standing: 'assumption',
				about: 'The extended time is counted from receipt, and goes forward to a working day as the first month does.'
			}
		]
	},
	disclosure: null,
	cautions: [
		'The regulator stopped attendance by fingerprint where no alternative was offered: offer one, and record it.',
		'An impact assessment comes before the first template is taken.'
	],
	source: 'UK GDPR, articles 5(1)(e), 7, 9, 12 and 17; ICO guidance on biometric recognition of 23 February 2024',
	lastReviewed: localDate('2026-11-25')
});
