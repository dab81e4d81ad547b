import { localDate } from '../../calendar/local-date';
import { definePack } from '../define-pack';

const statute = '740 ILCS 14/15(a)';

export default definePack({
	id: 'us-il',
	row: 10,
	title: 'Illinois, United States',
	covers: 'Fingerprint templates that a private entity keeps of people in Illinois, employees among them.',
	rules: [
		{
			id: 'purpose-ended',
			title: 'The purpose for which the template was taken has been satisfied',
			triggers: ['left', 'withdrew'],
			period: { unit: 'none' },
			statute,
			section: 'initial purpose satisfied',
			claims: [
				{ standing: 'settled', about: 'The template is destroyed when the initial purpose has been satisfied.' },
				{
					standing: 'assumption',
					about: 'The purpose is satisfied on the last day employed, and that day is the last on which to erase.',
					trigger: 'left'
				},
				{
					standing: 'assumption',
					about: 'The purpose is satisfied on the day on which the release is withdrawn or declined.',
					trigger: 'withdrew'
				}
			],
			cautions: [
				'The statute has no days of grace. A period "within n days of leaving" is a policy of the site and no right.',
				'Whether the purpose ends with employment or with the removal of access is for counsel to say.'
			]
		},
		{
			id: 'three-years',
			title: 'Three years after the last interaction',
			triggers: ['last-use'],
			period: { unit: 'months', count: 36 },
			statute,
			section: 'within 3 years of the last interaction',
			claims: [{ standing: 'settled', about: 'Three years after the last interaction, if that comes first.' }],
			cautions: [
				'What counts as the last interaction of an employee is an assumption: here the last use at a door, or the enrollment.',
				'From 29 February the limit is 28 February; 1 March is the less cautious reading.'
			]
		}
	],
	sitePeriodRequired: null,
	response: null,
	disclosure: null,
	cautions: [
		'A written policy with the schedule of retention must be public, and followed unless a warrant or subpoena says otherwise.',
		'Written notice of purpose and term, and a written release, come before the template is taken: 740 ILCS 14/15(b).'
	],
	source: '740 ILCS 14, with Public Act 103-0769 in force since 2 August 2024',
	lastReviewed: localDate('2026-11-25')
});
