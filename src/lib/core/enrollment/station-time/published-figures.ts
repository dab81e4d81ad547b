import type { StationTime } from './station-time';

/** What a published figure can be held against. */
export type Compared = 'minutes' | 'noShow' | 'repeatVisit' | 'failToEnroll';

/** A published figure beside which a site's own can be laid; never used to reckon with. */
export interface PublishedFigure {
	readonly what: string;
	readonly value: string;
	readonly source: string;
	/** `reported`: read in a secondary source; `from memory`: not checked against the text. */
	readonly standing: 'reported' | 'from memory';
	/** As numbers, minutes or a share, where a site has the same figure. */
	readonly compare?: { readonly with: Compared; readonly from: number; readonly to: number };
}

/** Figures to hold a site's estimates against. They come from other people, sensors and years: plausibility only. */
export const publishedFigures: readonly PublishedFigure[] = [
	{
		what: 'Whole session with face, iris and ten fingers',
		value: 'about 8 minutes',
		source: 'UK Passport Service biometrics enrolment trial, report May 2005, 3.1',
		standing: 'from memory',
		compare: { with: 'minutes', from: 7.93, to: 8.25 }
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
		standing: 'from memory',
		compare: { with: 'failToEnroll', from: 0.01, to: 0.02 }
	},
	{
		what: 'Missed appointments in outpatient care, 105 studies',
		value: '23 % on average, 13 % to 43 % by continent',
		source: 'Dantas et al., Health Policy 122(4), 2018; patients, not staff',
		standing: 'reported',
		compare: { with: 'noShow', from: 0.132, to: 0.43 }
	}
];

/** An estimate that is less than half of a published figure, or more than twice: no proof of anything, but worth a look. */
export interface FarFigure {
	readonly of: Compared;
	/** The capture class where `of` is minutes. */
	readonly captureClass?: string;
	readonly estimate: number;
	readonly is: 'less than half' | 'more than twice';
	readonly published: PublishedFigure;
}

/** Estimates far from what was published, in the order of the figures. Half and twice are our own choice. */
export function farFromPublished({ classes, ...shares }: Omit<StationTime, 'stations'>): FarFigure[] {
	return publishedFigures.flatMap((published) => {
		const { compare } = published;
		if (!compare) return [];
		const { with: of, from, to } = compare;
		const own: readonly { estimate: number; captureClass?: string }[] = of === 'minutes' ? classes : [shares[of]];
		return own.flatMap(({ estimate, captureClass }): FarFigure[] => {
			const is = estimate < from / 2 ? 'less than half' : estimate > 2 * to ? 'more than twice' : undefined;
			if (is === undefined) return [];
			return [{ of, ...(captureClass === undefined ? {} : { captureClass }), estimate, is, published }];
		});
	});
}
