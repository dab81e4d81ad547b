import type { PageLoad } from './$types';

/** Questions, no answers: what holds is for the authority having jurisdiction to say. */
const prompts = [
	{
		ask: 'Is the way out free to full instant use, at every hour and also for people who hold no credential?',
		source: 'NFPA 101, means of egress (7.1.10.1 in the 2006 edition).'
	},
	{
		ask:
			'Where a sensor releases the door: does it also unlock on loss of power, on fire alarm and sprinkler, and by a manual ' +
			'device beside it that works without the access system?',
		source: 'NFPA 101, 7.2.1.6.2 (2012, 2015); IBC 1010.1.9.8 (2015), 1010.1.9.9 (2018).'
	},
	{
		ask: 'Is the door held shut for some seconds after somebody pushes (delayed egress), and is that allowed here?',
		source: 'NFPA 101, 7.2.1.6.1.'
	},
	{
		ask: 'Does the door stay locked or unlock when power fails, and is the way out free either way?',
		source: 'Common practice, no source.'
	},
	{
		ask: 'Which doors must unlock on fire alarm, who connected them, and when was it tested?',
		source: 'NFPA 72, electrically locked doors; section from memory.'
	},
	{
		ask: 'Europe: is the electrically controlled exit system suited to this door, and are fire doors tested apart?',
		source: 'EN 13637:2015.'
	},
	{
		ask: 'Can everybody reach the reader, also from a wheelchair (in the United States 15 to 48 inches, 380 to 1220 mm)?',
		source: '2010 ADA Standards, 308.2.1, 308.3.1, 309.3, 404.3.5.'
	}
];

export const load: PageLoad = () => ({ prompts });
