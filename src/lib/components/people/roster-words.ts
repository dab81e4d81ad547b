/** How the fields that a roster can fill are said to people. */
export const rosterFieldWords: Readonly<Record<string, string>> = {
	id: 'Staff number',
	name: 'Name',
	givenName: 'Given name',
	familyName: 'Family name',
	department: 'Department',
	job: 'Job',
	email: 'E-mail',
	startsOn: 'First day',
	leavesOn: 'Last day',
	shiftPattern: 'Shift pattern',
	workAreas: 'Work areas',
	wave: 'Wave',
	captureClass: 'Capture class',
	needs: 'Needs',
	language: 'Language'
};

/** Characters between cells, in words. */
export const delimiterWords: Readonly<Record<string, string>> = {
	',': 'comma',
	';': 'semicolon',
	'\t': 'tab',
	'|': 'vertical bar'
};
