import { definePaper, fact, list, words } from '../define-paper';
import { missingPeriods, periodsTable, placesTable, purposeOf, stagesOfErasure, whoAnswers } from '../paper-parts';

export default definePaper({
	id: 'record-of-processing',
	title: 'Record of processing',
	about: 'What is processed about whom, for what, who gets it, how long it is kept and how it is kept safe.',
	make(rollout) {
		const { office, templates, consents, requests, notices } = rollout.privacy;
		const days = office?.removePeopleAfterDays;
		const isUnion = rollout.privacy.regimes.some((id) => id === 'eu' || id === 'fr');
		return [
			{ heading: 'Who is responsible', blocks: [whoAnswers(rollout)] },
			{ heading: 'Purpose', blocks: [words(purposeOf(rollout), '.')] },
			{ heading: 'Legal ground', blocks: [words({ blank: 'legal ground, and the condition for special categories' })] },
			{
				heading: 'Whose data, and which',
				blocks: [
					words(`${rollout.people.length} people who work at or come to the site.`),
					list([
						[`Fingerprint templates: ${templates.length} on record. They lie at the places below, not in this tool.`],
						[`Decisions about consent: ${consents.length}, under ${notices.length} notices.`],
						['Name, department, job, shifts, appointments and access, as far as entered.'],
						[`Requests of persons: ${requests.length}.`]
					])
				]
			},
			{
				heading: 'Who gets the data',
				blocks: [
					words(fact(office?.recipients, 'recipients, or nobody')),
					words('Transfers to other countries: ', { blank: 'countries and safeguards, or none' })
				]
			},
			{ heading: 'Places', blocks: [placesTable(rollout)] },
			{
				heading: 'Time limits for erasure',
				blocks: [
					...(isUnion
						? [words('Where possible, time limits for each category: Regulation (EU) 2016/679, article 30(1)(f).')]
						: []),
					periodsTable(rollout),
					...missingPeriods(rollout),
					words(
						'Data of people in this tool: removed ',
						fact(days === null || days === undefined ? null : String(days), 'days'),
						' days after go-live.'
					),
					stagesOfErasure(rollout)
				]
			},
			{
				heading: 'How it is kept safe',
				blocks: [words(fact(office?.safeguards, 'technical and organizational measures'))]
			},
			{ heading: 'Kept by', blocks: [words({ blank: 'name' }, ', last changed on ', { blank: 'day' }, '.')] }
		];
	}
});
