import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

export default definePack({
	id: 'eu',
	row: 50,
	title: 'European Union',
	covers: 'Biometric data that identify a person, a special category of personal data.',
	rules: [
		{
			id: 'purpose-ended',
			title: 'No longer necessary, or consent withdrawn: erased without undue delay',
			triggers: ['left', 'withdrew', 'unneeded'],
			period: { unit: 'none' },
			statute: 'Regulation (EU) 2016/679',
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
		'Employees can rarely consent freely; an equal alternative and another legal ground are for counsel to weigh.',
		'Member states may add conditions: article 9(4).',
		'An impact assessment is due where special categories are processed on a large scale: article 35(3)(b).'
	],
	source: 'Regulation (EU) 2016/679, articles 5(1)(e), 7, 9, 12 and 17',
	lastReviewed: localDate('2026-11-25')
});
