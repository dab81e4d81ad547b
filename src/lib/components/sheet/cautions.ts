/** The cautions that stand on sheets and prints where the work can hurt someone, each written once. */

export type CautionName = 'life-safety' | 'biometric-privacy' | 'plan-only' | 'names-on-trust';

export interface CautionText {
	readonly title: string;
	readonly text: string;
	/** Who has the last word. */
	readonly confirm: string;
}

export const cautions: Readonly<Record<CautionName, CautionText>> = {
	'life-safety': {
		title: 'Life safety',
		text:
			'Who may come in says nothing about getting out. Keep every way out free to use at all times, without a ' +
			'credential, also when power fails and when the fire alarm sounds.',
		confirm:
			'Local codes decide. Have locks, releases and their link to the fire alarm confirmed by the authority having ' +
			'jurisdiction and by licensed practice before go-live.'
	},
	'biometric-privacy': {
		title: 'Biometric privacy',
		text:
			'Consent states and erase-by dates are reckoned from rule packs and from the records entered here. They are no ' +
			'legal advice, and a date is only as good as its record.',
		confirm: 'Counsel confirms which rules apply at this site, what notices must say, and when a template must be gone.'
	},
	'plan-only': {
		title: 'A plan, not the lock',
		text:
			'Doorwright opens and locks nothing. What a door does is what was loaded into its controller and what its ' +
			'hardware can do.',
		confirm: 'Test every door, both ways, on the day it is commissioned and again before go-live.'
	},
	'names-on-trust': {
		title: 'Names on trust',
		text: 'There are no accounts yet: the name beside a change is the one that was given, and proves nothing.',
		confirm: 'Where a record must hold as evidence, keep the signed paper as well.'
	}
};
