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
	/** What is done there, in one sentence. */
	readonly about: string;
}

export const stages: readonly Stage[] = ['Site', 'People', 'Access', 'Enrollment', 'Records', 'Go-live'];

export const sheets = [
	{
		code: 'S-1',
		name: 'Site, areas and doors',
		path: 'site',
		stage: 'Site',
		figure: 'site',
		about: 'The site, its areas, the doors between them, and groups of doors.'
	},
	{
		code: 'S-2',
		name: 'Controllers and readers',
		path: 'controllers',
		stage: 'Site',
		figure: 'controllers',
		about: 'What decides about doors, how much each can hold, and the readers at the doors.'
	},
	{
		code: 'P-1',
		name: 'People',
		path: 'people',
		stage: 'People',
		figure: 'people',
		about: 'Everybody who needs a door, with job, shift pattern and work areas.'
	},
	{
		code: 'P-2',
		name: 'Roster intake',
		path: 'roster',
		stage: 'People',
		figure: 'roster',
		about: 'Reads a roster file, shows every problem in it, and changes people only when you say so.'
	},
	{
		code: 'P-3',
		name: 'Shifts and absences',
		path: 'shifts',
		stage: 'People',
		figure: 'shifts',
		about: 'Patterns of shifts, and who is away when.'
	},
	{
		code: 'P-4',
		name: 'Identity provider',
		path: 'identity',
		stage: 'People',
		figure: 'identity',
		about: 'Takes joiners, movers and leavers from an identity provider, by SCIM 2.0.'
	},
	{
		code: 'A-1',
		name: 'Time schedules',
		path: 'schedules',
		stage: 'Access',
		figure: 'schedules',
		about: 'Weeks of opening times.'
	},
	{
		code: 'A-2',
		name: 'Holidays',
		path: 'holidays',
		stage: 'Access',
		figure: 'holidays',
		about: 'Dates that override the week, and what each schedule does on them.'
	},
	{
		code: 'A-3',
		name: 'Profiles and assignments',
		path: 'profiles',
		stage: 'Access',
		figure: 'profiles',
		about: 'Door groups with schedules, and who gets them from when until when.'
	},
	{
		code: 'A-4',
		name: 'Who can open what',
		path: 'access',
		stage: 'Access',
		figure: 'access',
		about: 'People against doors, each cell a week; why, and why not.'
	},
	{
		code: 'A-5',
		name: 'Findings',
		path: 'findings',
		stage: 'Access',
		figure: 'findings',
		about: 'Everything wrong or doubtful, each leading to where it is mended.'
	},
	{
		code: 'A-6',
		name: 'What changes',
		path: 'compare',
		stage: 'Access',
		figure: 'compare',
		about: 'Who gains and who loses which door between two states, and what was changed for it.'
	},
	{
		code: 'E-1',
		name: 'Stations and waves',
		path: 'stations',
		stage: 'Enrollment',
		figure: 'stations',
		about: 'Where and when templates are taken, and the waves in which people go live.'
	},
	{
		code: 'E-2',
		name: 'Plan and sessions',
		path: 'plan',
		stage: 'Enrollment',
		figure: 'plan',
		about: 'Who comes when, by every rule; who cannot, and the proof of it.'
	},
	{
		code: 'E-3',
		name: 'Forecast',
		path: 'forecast',
		stage: 'Enrollment',
		figure: 'forecast',
		about: 'When everybody is likely to be enrolled, with no-shows and repeat visits.'
	},
	{
		code: 'E-4',
		name: 'What if',
		path: 'what-if',
		stage: 'Enrollment',
		figure: 'whatIf',
		about: 'The plan now beside the plan with changes, before any of them is made.'
	},
	{
		code: 'E-5',
		name: 'Walk-in desk',
		path: 'walk-in',
		stage: 'Enrollment',
		figure: 'walkIn',
		about: 'How long people wait at a desk without appointments, hour by hour, and how many lanes it takes.'
	},
	{
		code: 'E-6',
		name: 'Station time',
		path: 'station-time',
		stage: 'Enrollment',
		figure: 'stationTime',
		about: 'How long a person takes at a station: stages, what finished visits teach, and what plans go by.'
	},
	{
		code: 'R-1',
		name: 'Consent',
		path: 'consent',
		stage: 'Records',
		figure: 'consent',
		about: 'Notices, and what each person has decided.'
	},
	{
		code: 'R-2',
		name: 'Retention ledger',
		path: 'retention',
		stage: 'Records',
		figure: 'retention',
		about: 'Where templates lie, when each must be gone by which rule, and the evidence.'
	},
	{
		code: 'R-3',
		name: 'Requests',
		path: 'requests',
		stage: 'Records',
		figure: 'requests',
		about: 'What persons asked for about their data, by when it is answered, and everything held on one of them.'
	},
	{
		code: 'R-4',
		name: 'Matching risk',
		path: 'matching-risk',
		stage: 'Records',
		figure: 'matchingRisk',
		about: 'How likely a stranger opens a door that reads a finger, and how large a test must be to say so.'
	},
	{
		code: 'R-5',
		name: 'Papers',
		path: 'papers',
		stage: 'Records',
		figure: 'papers',
		about:
			'Retention policy, record of processing, impact assessment and notice, drafted from the settings for counsel.'
	},
	{
		code: 'G-1',
		name: 'Export and handover of data',
		path: 'handover',
		stage: 'Go-live',
		figure: 'handover',
		about: 'Takes the document, lists and calendars out.'
	},
	{
		code: 'G-2',
		name: 'Change record',
		path: 'changes',
		stage: 'Go-live',
		figure: 'changes',
		about: 'Who changed what when; every change can be taken back.'
	}
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
