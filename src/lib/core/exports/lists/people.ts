import { nameOf } from '../../document/names';
import type { Person } from '../../document/schema';
import { standingByPerson } from '../../enrollment/standing';
import { defineList } from './define-list';

const standings = { 'to-book': 'to be enrolled', declined: 'alternative credential', enrolled: 'enrolled' } as const;

export default defineList<Person>({
	name: 'people',
	title: 'People',
	summary: 'A row for each person, with department, shift pattern, wave and how the enrollment stands.',
	sheet: 'people',
	columns({ rollout }) {
		const standing = standingByPerson(rollout);
		return [
			{ key: 'id', label: 'Staff number', type: 'text', value: ({ id }) => id },
			{ key: 'name', label: 'Name', type: 'text', value: ({ name }) => name },
			{ key: 'department', label: 'Department', type: 'text', value: ({ department }) => department },
			{ key: 'job', label: 'Job', type: 'text', value: ({ job }) => job },
			{ key: 'email', label: 'E-mail', type: 'text', value: ({ email }) => email },
			{ key: 'startsOn', label: 'Starts on', type: 'date', value: ({ startsOn }) => startsOn },
			{ key: 'leavesOn', label: 'Leaves on', type: 'date', value: ({ leavesOn }) => leavesOn },
			{
				key: 'shiftPattern',
				label: 'Shift pattern',
				type: 'text',
				value: ({ shiftPattern }) => (shiftPattern === null ? null : nameOf(rollout.shiftPatterns, shiftPattern))
			},
			{
				key: 'workAreas',
				label: 'Work areas',
				type: 'text',
				value: ({ workAreas }) => workAreas.map((area) => nameOf(rollout.areas, area)).join('; ')
			},
			{
				key: 'wave',
				label: 'Wave',
				type: 'text',
				value: ({ wave }) => (wave === null ? null : nameOf(rollout.enrollment.waves, wave))
			},
			{ key: 'captureClass', label: 'Capture class', type: 'text', value: ({ captureClass }) => captureClass },
			{ key: 'needs', label: 'Needs', type: 'text', value: ({ needs }) => needs.join('; ') },
			{ key: 'language', label: 'Language', type: 'text', value: ({ language }) => language },
			{ key: 'standing', label: 'Standing', type: 'text', value: ({ id }) => standings[standing.get(id) ?? 'to-book'] }
		];
	},
	rows: ({ rollout }) => rollout.people
});
