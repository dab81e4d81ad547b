import { nameOf } from '../../document/names';
import type { Hold } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Hold>({
	name: 'holds',
	title: 'Holds',
	summary: 'A row for each hold that stops erasure, with its reason.',
	sheet: 'retention',
	columns: ({ rollout }) => [
		{ key: 'person', label: 'Staff number', type: 'text', value: ({ person }) => person },
		{ key: 'name', label: 'Name', type: 'text', value: ({ person }) => nameOf(rollout.people, person) },
		{ key: 'from', label: 'From', type: 'date', value: ({ from }) => from },
		{ key: 'until', label: 'Until', type: 'date', value: ({ until }) => until },
		{ key: 'reason', label: 'Reason', type: 'text', value: ({ reason }) => reason }
	],
	rows: ({ rollout }) => rollout.privacy.holds
});
