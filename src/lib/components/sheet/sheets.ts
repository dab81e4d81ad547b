/**
 * The sheets of a rollout, in the order of the job: the one list from which the sheet index, the codes in headings and
 * the title blocks are made.
 *
 * How a screen becomes a sheet:
 *
 * 1. It has its entry here. `path` is what follows `/r/[rollout]/`; `figure` is the key under which the layout of the
 *    rollout hands over the one figure that says how the sheet stands (`figures.findings = { text: '3 fail', state: 'fails' }`).
 * 2. The layout of the rollout (`routes/r/[rollout]/+layout.svelte`) sets the facts of the title block once, and draws the
 *    desk with the index:
 *
 *        setTitleBlock(() => data.titleBlock);            // $lib/components/sheet/title-block
 *        <Desk>
 *          {#snippet index()}
 *            <SheetIndex rollout={data.rollout} current={page.url.pathname} figures={data.figures} />
 *          {/snippet}
 *          {@render children()}
 *        </Desk>
 *
 * 3. The page draws itself with `Sheet`; the name and the heading come from here by the code:
 *
 *        <Sheet code="A-5" lead="What is wrong or doubtful, gravest first." cautions={['life-safety']}>
 *          {#snippet actions()}<Button href="…">Check again</Button>{/snippet}
 *          <Table … />
 *        </Sheet>
 *
 * A screen below a sheet (one schedule, one person) uses the code of its sheet and its own `name`.
 */

export type Stage = 'Site' | 'People' | 'Access' | 'Enrollment' | 'Records' | 'Go-live';

export interface SheetEntry {
	readonly code: string;
	readonly name: string;
	/** What follows `/r/[rollout]/`. */
	readonly path: string;
	readonly stage: Stage;
	/** Key of its figure in the sheet index. */
	readonly figure: string;
}

export const stages: readonly Stage[] = ['Site', 'People', 'Access', 'Enrollment', 'Records', 'Go-live'];

export const sheets = [
	{ code: 'S-1', name: 'Site, areas and doors', path: 'site', stage: 'Site', figure: 'site' },
	{ code: 'S-2', name: 'Controllers and readers', path: 'controllers', stage: 'Site', figure: 'controllers' },
	{ code: 'P-1', name: 'People', path: 'people', stage: 'People', figure: 'people' },
	{ code: 'P-2', name: 'Roster intake', path: 'roster', stage: 'People', figure: 'roster' },
	{ code: 'P-3', name: 'Shifts and absences', path: 'shifts', stage: 'People', figure: 'shifts' },
	{ code: 'A-1', name: 'Time schedules', path: 'schedules', stage: 'Access', figure: 'schedules' },
	{ code: 'A-2', name: 'Holidays', path: 'holidays', stage: 'Access', figure: 'holidays' },
	{ code: 'A-3', name: 'Profiles and assignments', path: 'profiles', stage: 'Access', figure: 'profiles' },
	{ code: 'A-4', name: 'Who can open what', path: 'access', stage: 'Access', figure: 'access' },
	{ code: 'A-5', name: 'Findings', path: 'findings', stage: 'Access', figure: 'findings' },
	{ code: 'E-1', name: 'Stations and waves', path: 'stations', stage: 'Enrollment', figure: 'stations' },
	{ code: 'E-2', name: 'Plan and sessions', path: 'plan', stage: 'Enrollment', figure: 'plan' },
	{ code: 'R-1', name: 'Consent', path: 'consent', stage: 'Records', figure: 'consent' },
	{ code: 'R-2', name: 'Retention ledger', path: 'retention', stage: 'Records', figure: 'retention' },
	{ code: 'G-1', name: 'Export and handover of data', path: 'handover', stage: 'Go-live', figure: 'handover' },
	{ code: 'G-2', name: 'Change record', path: 'changes', stage: 'Go-live', figure: 'changes' }
] as const satisfies readonly SheetEntry[];

export type SheetCode = (typeof sheets)[number]['code'];
export type FigureKey = (typeof sheets)[number]['figure'];

/** The sheet with a code; undefined for a code that no sheet has. */
export function findSheet(code: string): SheetEntry | undefined {
	return sheets.find((sheet) => sheet.code === code);
}

/** The address of a sheet of a rollout. */
export function sheetHref(rollout: string, path: string): string {
	return `/r/${encodeURIComponent(rollout)}/${path}`;
}

/** The sheet on which an address of a rollout lies: the entry itself or what stands below it. */
export function sheetAt(pathname: string): SheetEntry | undefined {
	const [, root, , first] = pathname.split('/');
	return root === 'r' ? sheets.find((sheet) => sheet.path === first) : undefined;
}
