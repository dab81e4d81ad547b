/** A published figure beside which a site's own can be laid; never used to reckon with. */
export interface PublishedFigure {
	readonly what: string;
	readonly value: string;
	readonly source: string;
	/** `reported`: read in a secondary source; `from memory`: not checked against the text. */
	readonly standing: 'reported' | 'from memory';
}

/** Figures to hold a site's estimates against. They come from other people, sensors and years: plausibility only. */
export const publishedFigures: readonly PublishedFigure[] = [
	{
		what: 'Whole session with face, iris and ten fingers',
		value: 'about 8 minutes',
		source: 'UK Passport Service biometrics enrolment trial, report May 2005, 3.1',
		standing: 'from memory'
	},
	{
		what: 'People who needed more than one attempt at fingerprints',
		value: '30 %',
		source: 'UK Passport Service trial, quoted in the LSE Identity Project report, June 2005, p. 183',
		standing: 'reported'
	},
	{
		what: 'People whose fingerprints could be enrolled, participants with disabilities',
		value: '96 %',
		source: 'UK Passport Service trial, quoted in the LSE Identity Project report, June 2005, p. 183',
		standing: 'reported'
	},
	{
		what: 'Failure to enroll, optical and chip sensors',
		value: '2 % and 1 %',
		source: 'National Physical Laboratory, Biometric Product Testing, Issue 1.0, March 2001',
		standing: 'from memory'
	},
	{
		what: 'Missed appointments in outpatient care, 105 studies',
		value: '23 % on average, 13 % to 43 % by continent',
		source: 'Dantas et al., Health Policy 122(4), 2018; patients, not staff',
		standing: 'reported'
	}
];
