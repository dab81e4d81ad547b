import { csvText, utf8 } from './csv-text.mjs';
import { kilnYard } from './kiln-yard.mjs';

/** The tutorial's roster: everybody of the document, one of them in another job, and somebody new. */
export function kilnYardRoster() {
	const header = ['Number', 'Name', 'Department', 'Job', 'Email', 'Starts', 'Leaves', 'Shift'];
	const rows = kilnYard().people.map(({ id, name, department, job, email, startsOn, shiftPattern }) => [
		id,
		name,
		department,
		id === 'K06' ? 'Glazer' : job,
		email,
		startsOn,
		'',
		shiftPattern
	]);
	const joiner = [
		'K13',
		'Anneliese Pottinger',
		'Studio',
		'Thrower',
		'anneliese@emberlane.example',
		'2027-02-01',
		'',
		'DAY'
	];
	return utf8(csvText([header, ...rows, joiner], ','));
}
