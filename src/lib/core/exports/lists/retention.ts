import { nameOf } from '../../document/names';
import { type TemplateRetention, retentionOn } from '../../privacy/retention';
import { defineList } from './define-list';

export default defineList<TemplateRetention>({
	name: 'retention',
	title: 'Retention ledger',
	summary:
		'A row for each template, as on the day of the export: the day by which it must be erased, the rule that governs, the places that still hold it. For review by counsel; no legal advice.',
	sheet: 'retention',
	columns: ({ rollout, today }) => [
		{ key: 'person', label: 'Staff number', type: 'text', value: ({ person }) => person },
		{ key: 'name', label: 'Name', type: 'text', value: ({ person }) => nameOf(rollout.people, person) },
		{ key: 'enrolledOn', label: 'Enrolled on', type: 'date', value: ({ enrolledOn }) => enrolledOn },
		{ key: 'state', label: 'State', type: 'text', value: ({ state }) => state },
		{ key: 'eraseBy', label: 'Erase by', type: 'date', value: ({ eraseBy }) => eraseBy },
		{ key: 'rule', label: 'Rule', type: 'text', value: ({ rule }) => rule },
		{ key: 'trigger', label: 'Trigger', type: 'text', value: ({ trigger }) => trigger },
		{ key: 'triggerDate', label: 'Trigger date', type: 'date', value: ({ triggerDate }) => triggerDate },
		{ key: 'left', label: 'Places left', type: 'text', value: ({ left }) => left.join('; ') },
		{ key: 'asOn', label: 'As on', type: 'date', isExtra: true, value: () => today }
	],
	rows: ({ rollout, today }) => retentionOn(rollout, today).templates
});
