import { counted } from '../document/names';
import type { Rollout } from '../document/schema';
import { type Claim, type Period, type RulePack, type Standing, type Trigger, sourceOf } from './define-pack';
import { type Block, type Line, type Part, fact, list, words } from './define-paper';
import { packsOf } from './packs-of';

/** What several papers share: periods with their sources, places, stages of erasure, whom to ask. */

const triggerWords: Readonly<Record<Trigger, string>> = {
	left: 'the last day employed',
	withdrew: 'the day on which consent is withdrawn or declined',
	'last-use': 'the last use, or the enrollment where there was none',
	unneeded: 'the day on which the template is found to be no longer needed'
};

const standingWords: Readonly<Record<Standing, string>> = {
	settled: 'settled by a text or a court',
	assumption: 'assumption, for counsel to confirm',
	'from memory': 'not read in its source, to be checked',
	'own rule': 'own rule of the site'
};

/** A claim with how well it is known, and about which trigger where it is about one only. */
export function claimWords({ standing, about }: Claim): string {
	return `${standingWords[standing]}: ${about}`;
}

function periodWords(period: Period): string {
	if (period.unit === 'none') return 'that day itself';
	const unit = period.count === 1 ? period.unit.slice(0, -1) : period.unit;
	return `${period.count} ${unit} later`;
}

/** Every rule of every rule pack of the site, its own rules last, with statute, section and standing. */
export function periodsTable(rollout: Rollout): Block {
	const rows = packsOf(rollout.privacy).flatMap((pack) =>
		pack.rules.map((rule): Line[] => [
			[pack.title],
			[rule.title],
			[rule.triggers.map((trigger) => triggerWords[trigger]).join('; ')],
			[periodWords(rule.period)],
			[sourceOf(rule)],
			[rule.claims.map(claimWords).join(' ')]
		])
	);
	return {
		kind: 'table',
		caption: 'Latest day on which a template is erased',
		columns: ['Law or rule', 'Limit', 'Counted from', 'Erased by', 'Source', 'How well it is known'],
		rows: rows.length > 0 ? rows : [[[''], [{ blank: 'the limit' }], [''], [''], [{ blank: 'its source' }], ['']]]
	};
}

/** Where a law names no number and the site must: the site's own period, or a blank for it, with its reason. */
export function missingPeriods(rollout: Rollout): Block[] {
	const { daysAfterLeaving } = rollout.privacy.siteRules;
	return packsOf(rollout.privacy).flatMap((pack) =>
		pack.sitePeriodRequired === null
			? []
			: [
					words(
						`${pack.title}: ${pack.sitePeriodRequired} The site keeps a template for `,
						fact(daysAfterLeaving === null ? null : String(daysAfterLeaving), 'days'),
						' days after leaving, for this reason: ',
						{ blank: 'reason for the period' },
						'.'
					)
				]
	);
}

/** What each rule pack of the site asks to keep in mind, with its source and the day of its last review. */
export function cautionsOf(packs: readonly RulePack[]): Block[] {
	const lawPacks = packs.filter(({ id }) => id !== 'site');
	return lawPacks.flatMap((pack) => [
		words(`${pack.title}. ${pack.covers} Source: ${pack.source}. Last reviewed on ${pack.lastReviewed}.`),
		list(
			[
				...pack.cautions,
				...pack.rules.flatMap((rule) => rule.cautions.map((caution) => `${sourceOf(rule)}: ${caution}`))
			].map((caution) => [caution])
		)
	]);
}

/** Places at which templates lie or may lie, with what is known of each: of templates, of the list of places. */
export function placesTable(rollout: Rollout): Block {
	const { templates, places } = rollout.privacy;
	const ids = [...new Set([...places.map(({ id }) => id), ...templates.flatMap(({ storedOn }) => storedOn)])].sort();
	const known = new Map(places.map((place) => [place.id, place]));
	const named = new Map(
		[...rollout.controllers, ...rollout.enrollment.stations].map(({ id, name }) => [id, name ?? id] as const)
	);
	const kinds = new Map([
		...rollout.controllers.map(({ id }) => [id, 'controller'] as const),
		...rollout.enrollment.stations.map(({ id }) => [id, 'station'] as const)
	]);
	const held = (id: string) => templates.filter(({ storedOn }) => storedOn.includes(id)).length;
	const rows = ids.map((id): Line[] => {
		const place = known.get(id);
		const ends =
			place?.keepsDays !== null && place?.keepsDays !== undefined
				? `${place.keepsDays} days after it is erased at its sources`
				: place?.expiresOn
					? `destroyed on ${place.expiresOn}`
					: 'erased by a work order';
		return [
			[place?.name ?? named.get(id) ?? id],
			[kinds.get(id) ?? place?.kind ?? fact(null, 'kind of place')],
			[String(held(id))],
			[ends]
		];
	});
	return {
		kind: 'table',
		caption: 'Places that hold templates',
		columns: ['Place', 'Kind', 'Templates on record', 'How it is emptied'],
		rows: rows.length > 0 ? rows : [[[{ blank: 'place' }], [{ blank: 'kind of place' }], ['0'], ['']]]
	};
}

/** How an erasure goes, stage by stage. */
export function stagesOfErasure(rollout: Rollout): Block {
	const { erasureRules } = rollout.privacy;
	return list([
		['The date is reckoned: of all limits that apply to a template, the earliest governs.'],
		['A work order names every place that holds the template, and what copies one of them.'],
		['Each place is emptied and confirmed with day, person and evidence. A place that is offline stays open.'],
		erasureRules.secondPerson
			? ['A second person confirms each place; it does not count before.']
			: ['One person confirms each place; the site asks for no second one.'],
		['A backup is emptied when its own period ends.'],
		['A template counts as erased only when every place does. The person gets a certificate on request.'],
		['A legal hold stops the erasure while it lasts, with its reason on record.']
	]);
}

/** Who is responsible, and whom people ask. */
export function whoAnswers({ privacy, site }: Rollout): Block {
	const { office } = privacy;
	return list([
		['Responsible: ', fact(office?.controller, 'who is responsible for the data')],
		['Address: ', fact(office?.address, 'address')],
		['Site: ', site.name],
		['Contact for questions and requests: ', fact(office?.contact, 'contact')],
		['Data protection officer: ', fact(office?.officer, 'officer, or none')]
	]);
}

/** What templates are used for: as the office says, or as the notice published last says it. */
export function purposeOf({ privacy }: Rollout): Part {
	const latest = privacy.notices
		.filter(({ purpose }) => purpose !== null)
		.sort((a, b) => ((a.publishedOn ?? '') < (b.publishedOn ?? '') ? 1 : -1))[0];
	return fact(privacy.office?.purpose ?? latest?.purpose, 'purpose');
}

/** By when requests of persons are answered, by each rule pack that has a period, and as the site sets it. */
export function answersToRequests({ privacy }: Rollout): Block {
	const rules = packsOf(privacy).flatMap((pack) =>
		pack.response === null
			? []
			: [
					[
						`${pack.title}: ${counted(pack.response.months, 'month')} from receipt`,
						pack.response.extendedMonths === null
							? ''
							: `, extended ${pack.response.extendedMonths} months from receipt`,
						` (${pack.response.source}). ${pack.response.claims.map(claimWords).join(' ')}`
					]
				]
	);
	const days = privacy.office?.answerWithinDays;
	return list([
		...rules,
		['As the site sets it: within ', fact(days === null || days === undefined ? null : String(days), 'days'), ' days.']
	]);
}
