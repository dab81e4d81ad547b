import type { Finding } from '../../kernel/finding';
import { defineList } from './define-list';

export default defineList<Finding>({
	name: 'findings',
	title: 'Findings',
	summary: 'A row for each finding: its code, how grave it is, the sentence that tells it, and the dates.',
	sheet: 'findings',
	needs: 'findings',
	columns: () => [
		{ key: 'severity', label: 'Severity', type: 'text', value: ({ severity }) => severity },
		{ key: 'code', label: 'Code', type: 'text', value: ({ code }) => code },
		{ key: 'message', label: 'Finding', type: 'text', value: ({ message }) => message },
		{
			key: 'subject',
			label: 'Subject',
			type: 'text',
			value: ({ subject }) =>
				Object.entries(subject)
					.map(([key, value]) => `${key} ${typeof value === 'string' ? value : value.join(', ')}`)
					.join('; ')
		},
		{ key: 'first', label: 'First date', type: 'date', value: ({ dates }) => dates[0] ?? null },
		{ key: 'last', label: 'Last date', type: 'date', value: ({ dates }) => dates.at(-1) ?? null },
		{ key: 'dates', label: 'Dates', type: 'text', isExtra: true, value: ({ dates }) => dates.join(' ') },
		{ key: 'count', label: 'Count', type: 'number', value: ({ count }) => count }
	],
	rows: ({ findings = [] }) => findings
});
