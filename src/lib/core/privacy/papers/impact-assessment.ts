import { contentsFor } from '../notice-contents';
import { definePaper, fact, list, words } from '../define-paper';
import { cautionsOf, periodsTable, placesTable, purposeOf, stagesOfErasure, whoAnswers } from '../paper-parts';
import { packsOf } from '../packs-of';

export default definePaper({
	id: 'impact-assessment',
	title: 'Starting pack for an impact assessment',
	about: 'The facts that an assessment begins with, and the questions that only people can answer.',
	make(rollout) {
		const { office, templates, consents, regimes } = rollout.privacy;
		const declined = new Set(consents.filter(({ decision }) => decision !== 'given').map(({ person }) => person)).size;
		return [
			{ heading: 'Who is responsible', blocks: [whoAnswers(rollout)] },
			{
				heading: 'What is planned',
				blocks: [
					words('Purpose: ', purposeOf(rollout), '.'),
					list([
						[
							`${rollout.people.length} people, ${rollout.doors.length} doors, ${templates.length} templates on record.`
						],
						[`${declined} people have an entry by which they declined or withdrew.`],
						['Another credential for them: ', fact(office?.alternative, 'other credential')],
						['Who gets the data: ', fact(office?.recipients, 'recipients, or nobody')]
					]),
					placesTable(rollout)
				]
			},
			{
				heading: 'Is it necessary, and in proportion',
				blocks: [
					words('Why a badge or a code is not enough: ', { blank: 'reason' }),
					words('What was tried or weighed instead: ', { blank: 'other ways' }),
					words('For which doors it is needed, and for which not: ', { blank: 'doors' }),
					words('Legal ground, and whether people can refuse without any detriment: ', { blank: 'legal ground' })
				]
			},
			{
				heading: 'What could go wrong for people',
				blocks: [
					list([
						['A template is read or copied by somebody else. How likely, how grave: ', { blank: 'estimate' }],
						['A template is kept longer than it may be. How likely, how grave: ', { blank: 'estimate' }],
						[
							'Somebody is taken for somebody else at a door (sheet R-4). How likely, how grave: ',
							{ blank: 'estimate' }
						],
						['Somebody cannot be enrolled and is treated worse. How likely, how grave: ', { blank: 'estimate' }],
						['Somebody agrees only because an employer asks. How likely, how grave: ', { blank: 'estimate' }],
						['The record is used for another purpose. How likely, how grave: ', { blank: 'estimate' }]
					])
				]
			},
			{
				heading: 'What is done about it',
				blocks: [
					words('Measures: ', fact(office?.safeguards, 'technical and organizational measures')),
					periodsTable(rollout),
					stagesOfErasure(rollout)
				]
			},
			{
				heading: 'What notices are held to',
				blocks: [list(contentsFor(regimes).map(({ says, source, standing }) => [`${says} (${source}; ${standing})`]))]
			},
			{ heading: 'For counsel: what the rules rest on', blocks: cautionsOf(packsOf(rollout.privacy)) },
			{
				heading: 'Who was heard, and who decides',
				blocks: [
					words('People concerned, or who speaks for them: ', { blank: 'names and day' }),
					words('Data protection officer: ', fact(office?.officer, 'officer'), ', opinion: ', { blank: 'opinion' }),
					words('Decision: ', { blank: 'decision' }, ' on ', { blank: 'day' }, ', to be looked at again by ', {
						blank: 'day'
					})
				]
			}
		];
	}
});
