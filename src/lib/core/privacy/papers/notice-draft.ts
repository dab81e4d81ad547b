import { contentsFor } from '../notice-contents';
import { definePaper, fact, list, words } from '../define-paper';
import { missingPeriods, periodsTable, purposeOf, stagesOfErasure, whoAnswers } from '../paper-parts';

export default definePaper({
	id: 'notice-draft',
	title: 'Notice draft',
	about: 'A notice to be handed over before a template is taken, with blanks, and the languages it is needed in.',
	make(rollout) {
		const { office, regimes, notices } = rollout.privacy;
		const spoken = [...new Set(rollout.people.flatMap(({ language }) => (language === null ? [] : [language])))].sort();
		const unspoken = spoken.filter((language) => !notices.some((notice) => notice.language === language));
		return [
			{
				heading: 'Notice about fingerprint templates',
				blocks: [
					words(
						'Version ',
						{ blank: 'version' },
						', language ',
						{ blank: 'language' },
						', from ',
						{ blank: 'day' },
						'.'
					),
					whoAnswers(rollout)
				]
			},
			{
				heading: 'What is taken, and what for',
				blocks: [
					words('A fingerprint template is collected and stored. It is used for: ', purposeOf(rollout), '.'),
					words('Nobody else gets it but: ', fact(office?.recipients, 'recipients, or nobody'), '.')
				]
			},
			{
				heading: 'How long it is kept',
				blocks: [periodsTable(rollout), ...missingPeriods(rollout), stagesOfErasure(rollout)]
			},
			{
				heading: 'Your choice',
				blocks: [
					words(
						'You may agree or decline, and need not say why. Whoever declines gets: ',
						fact(office?.alternative, 'other credential'),
						'.'
					),
					words(
						'You may withdraw at any time, as easily as you agreed, by telling: ',
						fact(office?.contact, 'contact'),
						'.'
					),
					words('The retention policy can be read here: ', fact(office?.publishedAt, 'where it is published'), '.')
				]
			},
			{
				heading: 'Your decision',
				blocks: [
					list([
						['I agree', ' — name, signature, day: ', { blank: 'signature' }],
						['I decline, and take the other credential', ' — name, signature, day: ', { blank: 'signature' }]
					])
				]
			},
			{
				heading: 'For counsel: what the notice is held to',
				blocks: [list(contentsFor(regimes).map(({ says, source, standing }) => [`${says} (${source}; ${standing})`]))]
			},
			{
				heading: 'For counsel: languages',
				blocks: [
					words(`Languages of people at this site: ${spoken.length > 0 ? spoken.join(', ') : 'none entered'}.`),
					words(
						unspoken.length > 0
							? `No notice is entered in: ${unspoken.join(', ')}. The draft above must be translated by somebody who answers for it.`
							: 'A notice is entered in each of them.'
					)
				]
			}
		];
	}
});
