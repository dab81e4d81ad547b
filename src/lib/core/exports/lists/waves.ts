import type { Wave } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Wave>({
	name: 'waves',
	title: 'Waves',
	summary: 'A row for each wave: the last day for enrolling, the go-live, and how many people it has.',
	sheet: 'stations',
	columns({ rollout }) {
		const people = new Map<string, number>();
		for (const { wave } of rollout.people) if (wave !== null) people.set(wave, (people.get(wave) ?? 0) + 1);
		return [
			{ key: 'id', label: 'Wave id', type: 'text', value: ({ id }) => id },
			{ key: 'name', label: 'Wave', type: 'text', value: ({ name }) => name },
			{ key: 'enrollBy', label: 'Enroll by', type: 'date', value: ({ enrollBy }) => enrollBy },
			{ key: 'goLive', label: 'Go-live', type: 'date', value: ({ goLive }) => goLive },
			{ key: 'people', label: 'People', type: 'number', value: ({ id }) => people.get(id) ?? 0 }
		];
	},
	rows: ({ rollout }) => rollout.enrollment.waves
});
