import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

export default definePack({
	id: 'us-tx',
	row: 20,
	title: 'Texas, United States',
	covers: 'Fingerprint templates taken for a commercial purpose, those for the security of an employer among them.',
	rules: [
		{
			id: 'one-year',
			title: 'First anniversary of the day on which the purpose expires',
			triggers: ['left', 'withdrew'],
			period: { unit: 'months', count: 12 },
			statute: 'Tex. Bus. & Com. Code 503.001',
			section: '(c)(3) and (c-2)',
			claims: [
				{
					standing: 'settled',
					about: "An employer's security purpose is presumed to expire when the employment relationship ends.",
					trigger: 'left'
				},
				{
					standing: 'assumption',
					about: 'The purpose expires on the day on which consent is withdrawn or declined.',
					trigger: 'withdrew'
				}
			],
			cautions: [
				'The statute asks for destruction within a reasonable time; the anniversary is the outer limit.',
				'Where another law requires a document to be kept, a longer time may be required: (c-1).',
				'The wording of (c-2) was not read; that it was added in 2009 was.'
			]
		}
	],
	sitePeriodRequired: null,
	response: null,
	disclosure: null,
	cautions: ['The person is informed and consents before the template is taken: 503.001(b).'],
	source: 'Texas Business and Commerce Code, section 503.001, as in force since 1 January 2026',
	lastReviewed: localDate('2026-11-25')
});
