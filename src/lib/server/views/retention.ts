import { type LocalDate, epochDayOf } from '$lib/core/calendar/local-date';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { remembered } from '$lib/core/kernel/remembered';
import { standingOf } from '$lib/core/privacy/define-pack';
import { templatePlaceName } from '$lib/core/privacy/erasure-orders';
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
	const workingDays = new Map<LocalDate, LocalDate>();
	const placeNames = new Map<string, string>();
	return retentionOn(rollout, on).templates.map((template) => {
		const rule = template.rule === null ? undefined : rules.get(template.rule);
		const { eraseBy, trigger } = template;
		return {
			...template,
			name: nameOf(rollout.people, template.person),
			actBy:
				eraseBy === null
					? null
					: remembered(workingDays, eraseBy, () => lastWorkingDayAtOrBefore(eraseBy, isWorkingDay)),
			standing: rule && trigger !== null ? standingOf(rule, trigger) : null,
			source: template.candidates[0]?.source ?? null,
			ruleTitle: rule?.title ?? null,
			leftNames: template.left.map((place) => remembered(placeNames, place, () => templatePlaceName(rollout, place))),
			why: whyOf(template, rule?.title)
		};
	});
}

/** Every date that counts for a template, the governing one first, with rule and trigger in words. */
export function datesOf({ privacy }: Rollout, { candidates }: Pick<TemplateRetention, 'candidates'>) {
	const rules = rulesByName(privacy);
	return candidates.map((one) => {
		const rule = rules.get(one.rule);
		return {
			...one,
			title: rule?.title ?? one.rule,
			from: triggerWords[one.trigger] ?? one.trigger,
			standing: rule ? standingOf(rule, one.trigger) : null
		};
	});
}

/** What falls due within so many days, in steps that do not overlap: 7, 14 and 30. */
export function fallingDue(lines: readonly LedgerLine[], on: LocalDate) {
	const from = epochDayOf(on);
	const due = lines
		.filter(({ state }) => state === 'due')
		.map((line) => ({ line, days: epochDayOf(line.eraseBy ?? on) - from }))
		.sort((a, b) => a.days - b.days);
	return reminderDays.map((within, step) => {
		const after = reminderDays[step - 1] ?? -1;
		return { within, lines: due.filter(({ days }) => days > after && days <= within).map(({ line }) => line) };
	});
}

const reminderDays = [7, 14, 30] as const;

function whyOf({ rule, trigger, triggerDate, candidates }: TemplateRetention, title: string | undefined): string {
	if (rule === null || title === undefined || trigger === null) return 'No rule has its trigger date yet.';
	const others = candidates.length - 1;
	const among = others === 0 ? '' : `, the earliest of ${candidates.length} dates`;
	const limit = title.charAt(0).toLowerCase() + title.slice(1);
	return `From ${triggerWords[trigger] ?? trigger}, ${triggerDate ?? ''}: ${limit} (${rule})${among}.`;
}
