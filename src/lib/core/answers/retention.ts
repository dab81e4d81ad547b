import { z } from 'zod';
import type { LocalDate } from '../calendar/local-date';
import type { Rollout } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { type RetentionRule, standingOf } from '../privacy/define-pack';
import { rulesByName } from '../privacy/packs-of';
import { type Retention, type TemplateRetention, retentionOn } from '../privacy/retention';
import type { TemplateState } from '../privacy/template-state';
import { daysToActOn, lastWorkingDayAtOrBefore } from '../privacy/working-days';
import { defineAnswer } from './define-answer';
import { dateParam } from './support/params';

const params = z.strictObject({
	on: dateParam.describe('The day of the reckoning; consent entries dated later do not count')
});

export default defineAnswer<{ on: LocalDate }, Retention>({
	name: 'retention',
	summary: 'Tells by when each template must be erased, under which rule, and what is wrong with consent.',
	params,
	run: (rollout, { on }) => Promise.resolve(ok(retentionOn(rollout, on))),
	isBad: (retention) => retention.templates.some((template) => template.state === 'overdue'),
	text
});

/** What wants attention first. */
const order: readonly TemplateState[] = ['overdue', 'due', 'held', 'kept', 'erased'];

const words: Readonly<Record<TemplateState, string>> = {
	overdue: 'overdue',
	due: 'due within 30 days',
	held: 'held',
	kept: 'kept',
	erased: 'erased'
};

/** Behind every date. */
const noDate = '~';

const caution =
	'Not legal advice: have counsel confirm each rule and date. A rule marked "assumption" or "from memory" rests on a ' +
	'choice or a figure that no text read here settles.';

function text({ templates, consentProblems }: Retention, rollout: Rollout): string {
	return [
		summaryOf(templates),
		...(templates.length === 0 ? [] : [ledger(templates, rollout)]),
		consentProblems.length === 0
			? 'Consent: no problem found.'
			: ['Consent:', ...consentProblems.map((problem) => `  ${problem.code}: ${problem.message}`)].join('\n'),
		caution
	].join('\n\n');
}

function summaryOf(templates: readonly TemplateRetention[]): string {
	if (templates.length === 0) return 'No template is on record.';
	const counts = order
		.map((state) => ({ state, count: templates.filter((template) => template.state === state).length }))
		.filter(({ count }) => count > 0);
	const noun = templates.length === 1 ? 'template' : 'templates';
	return `${templates.length} ${noun}: ${counts.map(({ state, count }) => `${count} ${words[state]}`).join(', ')}.`;
}

function ledger(templates: readonly TemplateRetention[], rollout: Rollout): string {
	const nameById = new Map(rollout.people.map((person) => [person.id, person.name ?? '']));
	const rules = rulesByName(rollout.privacy);
	const canActOn = daysToActOn(rollout.holidays.days);
	const rows = templates
		.toSorted(
			(a, b) => order.indexOf(a.state) - order.indexOf(b.state) || byCodeUnits(a.eraseBy ?? noDate, b.eraseBy ?? noDate)
		)
		.map((template) => [
			template.state,
			template.person,
			nameById.get(template.person) ?? '',
			template.eraseBy ?? 'no date',
			template.eraseBy === null ? '' : lastWorkingDayAtOrBefore(template.eraseBy, canActOn),
			template.rule ?? '',
			standing(template, rules),
			template.trigger === null ? '' : `${template.trigger} ${template.triggerDate ?? ''}`,
			template.left.join(', ')
		]);
	return textTable(
		['State', 'Person', 'Name', 'Erase by', 'Act by', 'Rule', 'Standing', 'Counted from', 'Still stored on'].map(
			(heading) => ({ heading })
		),
		rows
	);
}

function standing({ rule, trigger }: TemplateRetention, rules: ReadonlyMap<string, RetentionRule>): string {
	const found = rules.get(rule ?? '');
	return found === undefined || trigger === null ? '' : standingOf(found, trigger);
}
