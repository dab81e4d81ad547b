import { chosenIn, linesIn, textIn } from './forms';

/** The fields of a person as the form of a person sends them. */
export function personIn(form: FormData): Record<string, unknown> {
	const fields = [
		'name',
		'department',
		'job',
		'email',
		'startsOn',
		'leavesOn',
		'shiftPattern',
		'wave',
		'captureClass',
		'language'
	];
	return {
		id: textIn(form, 'id') ?? '',
		...Object.fromEntries(fields.map((name) => [name, textIn(form, name)])),
		workAreas: chosenIn(form, 'workAreas'),
		needs: linesIn(form, 'needs')
	};
}
