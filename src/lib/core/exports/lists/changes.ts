import { type ListedChange, defineList } from './define-list';

export default defineList<ListedChange>({
	name: 'changes',
	title: 'Change record',
	summary:
		'A row for each change: who changed what and when (in UTC), and the revision that it led to; the latest first.',
	sheet: 'changes',
	needs: 'changes',
	columns: () => [
		{ key: 'number', label: 'Number', type: 'number', value: ({ number }) => number },
		{ key: 'at', label: 'At (UTC)', type: 'date-time', value: ({ at }) => at.slice(0, 16) },
		{ key: 'who', label: 'Who', type: 'text', value: ({ who }) => who },
		{ key: 'what', label: 'What', type: 'text', value: ({ what }) => what },
		{ key: 'edit', label: 'Kind of change', type: 'text', isExtra: true, value: ({ edit }) => edit },
		{ key: 'revision', label: 'Revision', type: 'text', value: ({ revision }) => revision },
		{ key: 'undoes', label: 'Takes back', type: 'number', value: ({ undoes }) => undoes },
		{ key: 'undoneBy', label: 'Taken back by', type: 'number', value: ({ undoneBy }) => undoneBy }
	],
	rows: ({ changes = [] }) => changes
});
