/** What a column of a list holds, in a word. */
export const cellTypeWords = {
	text: 'text',
	number: 'number',
	date: 'date',
	'date-time': 'date and time',
	'yes-no': 'yes or no'
} as const;
