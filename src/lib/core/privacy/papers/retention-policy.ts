import { definePaper, fact, words } from '../define-paper';
import {
	answersToRequests,
	cautionsOf,
	missingPeriods,
	periodsTable,
	placesTable,
	purposeOf,
	stagesOfErasure,
	whoAnswers
} from '../paper-parts';
import { packsOf } from '../packs-of';

export default definePaper({
	id: 'retention-policy',
	title: 'Public retention policy',
	about: 'What the site tells everybody: how long templates are kept, by which rule, and how they are erased.',
	make(rollout) {
		const { office } = rollout.privacy;
		return [
			{ heading: 'Who answers for it', blocks: [whoAnswers(rollout)] },
			{
				heading: 'What is kept, and what for',
				blocks: [
					words(
						'Fingerprint templates of people who agreed to it, and the record of what they decided. Purpose: ',
						purposeOf(rollout),
						'.'
					),
					words('Whoever declines or withdraws gets instead: ', fact(office?.alternative, 'other credential'), '.')
				]
			},
			{
				heading: 'How long',
				blocks: [
					words(
						'Of all limits that apply to a template the earliest governs. A limit is not moved for weekends or holidays.'
					),
					periodsTable(rollout),
					...missingPeriods(rollout)
				]
			},
			{ heading: 'Where', blocks: [placesTable(rollout)] },
			{ heading: 'How templates are erased', blocks: [stagesOfErasure(rollout)] },
			{ heading: 'Questions and requests', blocks: [answersToRequests(rollout)] },
			{
				heading: 'Where this policy can be read',
				blocks: [
					words(fact(office?.publishedAt, 'where it is published')),
					words('In force from ', { blank: 'day' }, ', approved by ', { blank: 'name and office' }, '.')
				]
			},
			{ heading: 'For counsel: what the rules rest on', blocks: cautionsOf(packsOf(rollout.privacy)) }
		];
	}
});
