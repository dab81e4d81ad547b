import type { Standing } from './define-pack';

/** Something that a notice must say, or that must be had with it, by the law of one rule pack. */
export interface NoticeContent {
	/** `pack/item`, as notices tick it. */
	readonly id: string;
	readonly pack: string;
	readonly says: string;
	readonly source: string;
	/** Whether the text itself was read, or the point is from memory or a reading of ours. */
	readonly standing: Standing;
}

/**
 * What each law asks of a notice, section by section, for counsel to go through; not complete, and no legal advice. What was not
 * read in the statute itself says so.
 */
export const noticeContents: readonly NoticeContent[] = [
	...ofPack('us-il', [
		['collected', 'That a biometric identifier is collected or stored, in writing', '740 ILCS 14/15(b)', 'settled'],
		['purpose', 'The specific purpose, in writing', '740 ILCS 14/15(b)', 'settled'],
		['term', 'The length of term, in writing', '740 ILCS 14/15(b)', 'settled'],
		['release', 'A written release is received; it may be an electronic signature', '740 ILCS 14/15(b)', 'settled'],
		['policy', 'Where the public policy with the retention schedule can be read', '740 ILCS 14/15(a)', 'assumption']
	]),
	...ofPack('us-tx', [
		['informed', 'The person is informed before the capture', 'Tex. Bus. & Com. Code 503.001(b)', 'settled'],
		['consent', 'The person consents before the capture', 'Tex. Bus. & Com. Code 503.001(b)', 'settled']
	]),
	...ofPack('us-wa', [
		['notice', 'Notice before enrollment for a commercial purpose', 'RCW 19.375.020(1)', 'settled'],
		['consent', 'Consent, or a mechanism that prevents later commercial use', 'RCW 19.375.020(1)', 'settled']
	]),
	...ofPack('us-co', [
		['policy', 'The written policy with the retention schedule', 'C.R.S. 6-1-1314', 'from memory'],
		[
			'uses',
			'For which uses consent is required, and that refusing others has no penalty',
			'C.R.S. 6-1-1314',
			'from memory'
		]
	]),
	...ofPack('eu', gdpr('Regulation (EU) 2016/679')),
	...ofPack('uk', [
		...gdpr('UK GDPR'),
		[
			'alternative',
			'An equal alternative, offered without being asked for',
			'ICO, notices of 23 February 2024',
			'assumption'
		]
	]),
	...ofPack('fr', [
		['why', 'Why a badge or a code is not enough', 'CNIL, deliberation 2019-001', 'assumption'],
		['held', 'How the template is held', 'CNIL, deliberation 2019-001', 'assumption']
	]),
	...ofPack('ca-qc', [
		['consent', 'Express consent', 'CQLR, c. C-1.1, section 44', 'settled'],
		['least', 'That as few characteristics as needed are taken', 'CQLR, c. C-1.1, section 44', 'assumption'],
		['use', 'That no other use is made of them', 'CQLR, c. C-1.1, section 44', 'assumption']
	])
];

/** What the notices of a site with these rule packs are held to. */
export function contentsFor(regimes: readonly string[]): readonly NoticeContent[] {
	return noticeContents.filter(({ pack }) => regimes.includes(pack));
}

type Written = readonly [item: string, says: string, source: string, standing: Standing];

function gdpr(act: string): readonly Written[] {
	return [
		['period', 'The storage period, or the criteria for it', `${act}, article 13(2)(a)`, 'from memory'],
		[
			'withdrawal',
			'That consent can be withdrawn at any time, told before it is given',
			`${act}, article 7(3)`,
			'settled'
		],
		['explicit', 'That consent is explicit where it is the ground', `${act}, article 9(2)(a)`, 'settled']
	];
}

function ofPack(pack: string, items: readonly Written[]): NoticeContent[] {
	return items.map(([item, says, source, standing]) => ({ id: `${pack}/${item}`, pack, says, source, standing }));
}
