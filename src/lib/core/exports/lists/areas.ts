import type { Area } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Area>({
	name: 'areas',
	title: 'Areas',
	summary: 'A row for each area, and whether it lies outside.',
	sheet: 'site',
	columns: () => [
		{ key: 'id', label: 'Area id', type: 'text', value: ({ id }) => id },
		{ key: 'name', label: 'Area', type: 'text', value: ({ name }) => name },
		{ key: 'outside', label: 'Outside', type: 'yes-no', value: ({ outside }) => outside }
	],
	rows: ({ rollout }) => rollout.areas
});
