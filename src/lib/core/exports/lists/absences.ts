import { nameOf } from '../../document/names';
import type { Absence } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Absence>({
	name: 'absences',
	title: 'Absences',
	summary: 'A row for each absence, with its first and its last day.',
	sheet: 'shifts',
	columns: ({ rollout }) => [
		{ key: 'person', label: 'Staff number', type: 'text', value: ({ person }) => person },
		{ key: 'name', label: 'Name', type: 'text', value: ({ person }) => nameOf(rollout.people, person) },
		{ key: 'from', label: 'From', type: 'date', value: ({ from }) => from },
		{ key: 'until', label: 'Until', type: 'date', value: ({ until }) => until }
	],
	rows: ({ rollout }) => rollout.absences
});
