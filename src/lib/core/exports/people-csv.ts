import { standingByPerson } from '../enrollment/standing';
import { nameOf } from '../document/names';
import { defineExport } from './define-export';
import { csvOf } from './support/csv';

const standings = { 'to-book': 'to be enrolled', declined: 'alternative credential', enrolled: 'enrolled' } as const;

export default defineExport({
	name: 'people-csv',
	title: 'People',
	summary: 'The list of people with department, shift pattern, wave and how they stand, for a spreadsheet.',
	files({ rollout }) {
		if (rollout.people.length === 0) return [];
		const standing = standingByPerson(rollout);
		const rows = rollout.people.map((person) => [
			person.id,
			person.name,
			person.department,
			person.job,
			person.email,
			person.startsOn,
			person.leavesOn,
			person.shiftPattern === null ? null : nameOf(rollout.shiftPatterns, person.shiftPattern),
			person.workAreas.map((area) => nameOf(rollout.areas, area)).join('; '),
			person.wave === null ? null : nameOf(rollout.enrollment.waves, person.wave),
			person.captureClass,
			person.needs.join('; '),
			person.language,
			standings[standing.get(person.id) ?? 'to-book']
		]);
		const header =
			'Staff number,Name,Department,Job,E-mail,Starts on,Leaves on,Shift pattern,Work areas,Wave,Capture class,Needs,Language,Standing';
		return [
			{
				name: 'people.csv',
				type: 'text/csv',
				content: () => csvOf(header.split(','), rows),
				about: `${rows.length} people`
			}
		];
	}
});
