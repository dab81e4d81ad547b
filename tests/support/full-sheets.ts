import { coverSheets } from '../../src/lib/components/sheet/cover-sheets';
import { sheets } from '../../src/lib/components/sheet/sheets';

/** The demo's rollout with most on its sheets. */
export const larkfen = 'larkfen-cold-store';

/** Every sheet with much on it, and what opens below and within sheets. */
export const fullSheets: readonly string[] = [
	...coverSheets.map(({ href }) => href),
	...sheets.map(({ path }) => `/r/${larkfen}/${path}`),
	`/r/${larkfen}/people/00512`,
	`/r/${larkfen}/schedules/cleaning`,
	`/r/${larkfen}/site?door=drivers`,
	`/r/${larkfen}/holidays?date=2027-07-04`,
	`/r/${larkfen}/retention?on=2026-11-25&template=0`,
	`/r/${larkfen}/plan?date=2027-01-11&booking=0`
];
