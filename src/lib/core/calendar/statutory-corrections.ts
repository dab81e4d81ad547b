import { type LocalDate, localDate } from './local-date';

/** What a correction does to the days that the library gives. `rule` is the library's own text for a day's rule. */
export type CorrectionEffect =
	| { readonly kind: 'add'; readonly date: LocalDate; readonly name: string; readonly isSubstitute: boolean }
	/** A day that the library holds for public is none. */
	| { readonly kind: 'drop'; readonly rule: string }
	/** The day itself stays, the day given for it on another date is none, but for these years. */
	| { readonly kind: 'drop-substitute'; readonly rule: string; readonly exceptYears: readonly number[] }
	/** A day that the library holds for a bank holiday counts as public. */
	| { readonly kind: 'count'; readonly rule: string }
	| { readonly kind: 'rename'; readonly rule: string; readonly name: string }
	/** The official list names only the day given instead, never the weekend day itself. */
	| { readonly kind: 'weekdays-only' };

/** A difference between the library and the official list, settled in favor of the list. */
export interface StatutoryCorrection {
	readonly country: string;
	/** The region that it is for; null: only where no region is known; 'all': wherever the rule applies. */
	readonly region: string | null;
	readonly effect: CorrectionEffect;
	readonly why: string;
	readonly source: string;
}

/** The day on which the corrections were last compared with the official lists. */
export const correctionsReviewedOn = localDate('2026-11-25');

const govUk = 'gov.uk bank holidays, data of 21 August 2026';
const federal = '5 U.S.C. 6103(a) and (b); Executive Order 11582, section 3(a)';
const illinois = '205 ILCS 630/17(a) and 10 ILCS 5/1-6(b), which name the holidays of the state';

/**
 * Every correction. What the library holds for `bank`, `school`, `optional` or `observance` is never asked for, so that
 * these need no correction: 24 and 31 December in Bavaria, the first Monday of August in New South Wales, Good Friday
 * and the weekday after a weekend Saint Stephen's Day in Ireland.
 *
 * States of the US: a site in Illinois has its state's holidays beside the federal ones, since the list is that of
 * country and region. Illinois names Good Friday only as a day on which banks may close, so that it is not added.
 */
export const statutoryCorrections: readonly StatutoryCorrection[] = [
	{
		country: 'GB',
		region: 'all',
		effect: { kind: 'weekdays-only' },
		why: 'The official list has the substitute day alone; the library adds the Saturday or Sunday.',
		source: govUk
	},
	{
		country: 'GB',
		region: null,
		effect: { kind: 'drop', rule: 'easter 1' },
		why: 'Scotland does not have Easter Monday, so that it is no day of the whole country.',
		source: govUk
	},
	{
		country: 'GB',
		region: 'SCT',
		effect: {
			kind: 'add',
			date: localDate('2026-06-15'),
			name: 'Additional bank holiday, by proclamation',
			isSubstitute: false
		},
		why: 'Proclaimed in February 2026 for that year alone; later than the library.',
		source: `${govUk}; proclamation under section 1(3) of the Banking and Financial Dealings Act 1971`
	},
	{
		country: 'GB',
		region: 'SCT',
		effect: {
			kind: 'rename',
			rule: 'substitutes 01-02 if sunday then next monday',
			name: "New Year's Day (substitute day)"
		},
		why: 'When 1 January is a Saturday, 3 January stands for New Year; the library has the two labels swapped.',
		source: `${govUk} (2028)`
	},
	{
		country: 'GB',
		region: 'SCT',
		effect: {
			kind: 'rename',
			rule: 'substitutes 01-01 if saturday then next tuesday',
			name: '2nd January (substitute day)'
		},
		why: 'When 1 January is a Saturday, 4 January stands for 2 January; the library has the two labels swapped.',
		source: `${govUk} (2028)`
	},
	{
		country: 'GB',
		region: 'SCT',
		effect: { kind: 'rename', rule: '01-02', name: '2nd January' },
		why: 'As the official list writes it.',
		source: govUk
	},
	{
		country: 'GB',
		region: 'SCT',
		effect: {
			kind: 'rename',
			rule: 'substitutes 01-02 if saturday then next monday',
			name: '2nd January (substitute day)'
		},
		why: 'As the official list writes it.',
		source: govUk
	},
	{
		country: 'US',
		region: 'all',
		effect: { kind: 'count', rule: 'substitutes 11-11 if sunday then next monday if saturday then previous friday' },
		why: 'The day observed for Veterans Day is a federal day off like the other ten; the library holds it for a bank holiday.',
		source: federal
	},
	{
		country: 'US',
		region: 'all',
		effect: { kind: 'rename', rule: '1st monday in September', name: 'Labor Day' },
		why: 'As the statute spells it.',
		source: federal
	},
	{
		country: 'US',
		region: 'IL',
		effect: { kind: 'drop', rule: '05-19' },
		why: 'Declared by a resolution of one chamber in 2015; no statute makes it a holiday.',
		source: illinois
	},
	{
		country: 'CA',
		region: 'ON',
		effect: { kind: 'drop', rule: 'easter 1' },
		why: 'Easter Monday is not among the nine public holidays of Ontario.',
		source: 'Employment Standards Act, 2000 (Ontario), as the Ministry of Labour lists its nine public holidays'
	},
	{
		country: 'AU',
		region: 'NSW',
		effect: {
			kind: 'drop-substitute',
			rule: '04-25 and if saturday,sunday then next monday',
			exceptYears: [2026, 2027]
		},
		why: 'The additional Monday for Anzac Day was ordered for 2026 and 2027 only; the library gives it in every later year.',
		source: 'Public Holidays Act 2010 (NSW) and the Order for 2026 and 2027, as listed by Local Government NSW'
	},
	{
		country: 'AU',
		region: 'NSW',
		effect: { kind: 'drop-substitute', rule: '04-25 and if saturday then next monday', exceptYears: [2026, 2027] },
		why: 'The same, in the form in which the library has it before 25 April 2026.',
		source: 'Public Holidays Act 2010 (NSW) and the Order for 2026 and 2027, as listed by Local Government NSW'
	}
];
