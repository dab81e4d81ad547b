import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

export default definePack({
	id: 'fr',
	row: 60,
	title: 'France',
	covers: 'Biometric access of employees to premises, devices and applications at work.',
	rules: [
		{
			id: 'authorization-ended',
			title: 'The person is no longer authorized',
			triggers: ['left', 'withdrew'],
			period: { unit: 'none' },
			statute: 'CNIL, deliberation 2019-001 of 10 January 2019',
			section: 'retention of templates (from memory)',
			claims: [
				{
					standing: 'from memory',
					about: 'A template is kept only while the person is authorized; the current text was not read.'
				}
			],
			cautions: []
		}
	],
	sitePeriodRequired: null,
	response: {
		months: 1,
		extendedMonths: 3,
		source: 'Regulation (EU) 2016/679, article 12(3); Regulation (EEC, Euratom) 1182/71, article 3',
		claims: [
			{
				standing: 'settled',
				about: 'One month from receipt; two further months when the person is told within the first.'
			}
		]
	},
	disclosure: null,
	cautions: [
		'Why a badge or a code is not enough must be justified in writing, and how the template is held must be documented.',
		'The impact assessment is updated at least every three years.',
		'The regulation of the Union applies beside this: list the pack eu as well.'
	],
	source: 'CNIL, deliberation 2019-001 of 10 January 2019 (official journal of 28 March 2019)',
	lastReviewed: localDate('2026-11-25')
});
