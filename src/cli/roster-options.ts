import type { KnownOption } from './call';

/** The options of `import-roster`, apart from it so that help does not load what reads rosters. */
export const rosterOptions: readonly (KnownOption & { readonly description: string })[] = [
	{
		name: 'map',
		isFlag: false,
		description:
			'FILE in JSON that says what the columns hold, the order of dates, the encoding, the delimiter, the sheet'
	},
	{ name: 'into', isFlag: false, description: 'Rollout document that the list is compared with; it is never changed' }
];
