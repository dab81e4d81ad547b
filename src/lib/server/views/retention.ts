import type { LocalDate } from '$lib/core/calendar/local-date';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { standingOf } from '$lib/core/privacy/define-pack';
import { rulesByName } from '$lib/core/privacy/packs-of';
import { type TemplateRetention, retentionOn } from '$lib/core/privacy/retention';
import { daysToActOn, lastWorkingDayAtOrBefore } from '$lib/core/privacy/working-days';

/** A line of the ledger: one template, what governs it, and by when somebody must act. */
export interface LedgerLine extends TemplateRetention {
	readonly name: string;
	/** The last working day at or before the erase-by date. */
	readonly actBy: LocalDate | null;
	/** Whether the governing rule is settled, an assumption, from memory, or the site's own. */
	readonly standing: string | null;
	readonly source: string | null;
	/** The governing rule in words; null where none has its trigger date yet. */
	readonly ruleTitle: string | null;
	/** Every date that counts, the governing one first, with rule and trigger in words. */
	readonly dates: readonly (TemplateRetention['candidates'][number] & {
		readonly title: string;
		readonly from: string;
	})[];
	/** What the places that still hold it are called. */
	readonly leftNames: readonly string[];
	/** Why this date, in one sentence. */
	readonly why: string;
}

const triggerWords: Readonly<Record<string, string>> = {
	left: 'the last day employed',
	withdrew: 'the day on which consent was withdrawn or declined',
	'last-use': 'the last use, or the enrollment where none is known',
	unneeded: 'the day on which the site decided that it is not needed'
};

/** The ledger on a date, in the order of the document. */
export function ledgerLines(rollout: Rollout, on: LocalDate): LedgerLine[] {
	const rules = rulesByName(rollout.privacy);
	const isWorkingDay = daysToActOn(rollout.holidays.days);
	return retentionOn(rollout, on).templates.map((template) => {
		const rule = template.rule === null ? undefined : rules.get(template.rule);
		const { eraseBy, trigger } = template;
		return {
			...template,
			name: nameOf(rollout.people, template.person),
			actBy: eraseBy === null ? null : lastWorkingDayAtOrBefore(eraseBy, isWorkingDay),
			standing: rule && trigger !== null ? standingOf(rule, trigger) : null,
			source: template.candidates[0]?.source ?? null,
			ruleTitle: rule?.title ?? null,
			dates: template.candidates.map((one) => ({
				...one,
				title: rules.get(one.rule)?.title ?? one.rule,
				from: triggerWords[one.trigger] ?? one.trigger
			})),
			leftNames: template.left.map((place) => placeName(rollout, place)),
			why: whyOf(template, rule?.title)
		};
	});
}

function whyOf({ rule, trigger, triggerDate, candidates }: TemplateRetention, title: string | undefined): string {
	if (rule === null || title === undefined || trigger === null) return 'No rule has its trigger date yet.';
	const others = candidates.length - 1;
	const among = others === 0 ? '' : `, the earliest of ${candidates.length} dates`;
	const limit = title.charAt(0).toLowerCase() + title.slice(1);
	return `From ${triggerWords[trigger] ?? trigger}, ${triggerDate ?? ''}: ${limit} (${rule})${among}.`;
}

/** What people call a place that stores templates: a controller or a station. */
export function placeName({ controllers, enrollment }: Rollout, place: string): string {
	return nameOf(controllers.some(({ id }) => id === place) ? controllers : enrollment.stations, place);
}
