import type { ShiftPattern } from '../../document/schema';
import { defineList } from './define-list';

interface Row {
	readonly pattern: ShiftPattern;
	readonly day: number | null;
	readonly at: string | null;
}

export default defineList<Row>({
	name: 'shifts',
	title: 'Shift patterns',
	summary: 'A row for each shift of each pattern: the day of the cycle, from 0, and when it lasts.',
	sheet: 'shifts',
	columns({ rollout }) {
		const people = new Map<string, number>();
		for (const { shiftPattern } of rollout.people) {
			if (shiftPattern !== null) people.set(shiftPattern, (people.get(shiftPattern) ?? 0) + 1);
		}
		return [
			{ key: 'id', label: 'Pattern id', type: 'text', value: ({ pattern }) => pattern.id },
			{ key: 'name', label: 'Shift pattern', type: 'text', value: ({ pattern }) => pattern.name },
			{ key: 'anchor', label: 'Day 0', type: 'date', value: ({ pattern }) => pattern.anchor },
			{ key: 'cycleDays', label: 'Days of the cycle', type: 'number', value: ({ pattern }) => pattern.cycleDays },
			{ key: 'day', label: 'Day', type: 'number', value: ({ day }) => day },
			{ key: 'at', label: 'Shift', type: 'text', value: ({ at }) => at },
			{ key: 'worksOn', label: 'Works on', type: 'text', value: ({ pattern }) => pattern.worksOn.join('; ') },
			{ key: 'people', label: 'People', type: 'number', value: ({ pattern }) => people.get(pattern.id) ?? 0 }
		];
	},
	rows: ({ rollout }) =>
		rollout.shiftPatterns.flatMap((pattern): Row[] =>
			pattern.shifts.length === 0
				? [{ pattern, day: null, at: null }]
				: pattern.shifts.map(({ day, at }) => ({ pattern, day, at }))
		)
});
