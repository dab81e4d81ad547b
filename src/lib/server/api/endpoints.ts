/** An address of the API with one method. */
export interface Endpoint {
	/** Below `/api/v1`, parts that vary in braces. */
	readonly path: string;
	readonly method: 'get' | 'post' | 'put' | 'delete';
	readonly summary: string;
	readonly query?: readonly QueryParameter[];
	/** JSON Schema of what is sent, or a reference to one. */
	readonly body?: Readonly<Record<string, unknown>>;
	readonly bodyRef?: string;
	/** What comes back when nothing is refused, by status. */
	readonly answers: Readonly<Record<number, string>>;
	/** It takes `If-Match`. */
	readonly isChange?: boolean;
}

export interface QueryParameter {
	readonly name: string;
	readonly required?: boolean;
	readonly description?: string;
	readonly schema: Readonly<Record<string, unknown>>;
}

const document = '#/components/schemas/RolloutDocument';
const number = { type: 'integer', minimum: 1 };
const one = '/rollouts/{rollout}';

/** Every address that does not come from a registry. */
export const endpoints: readonly Endpoint[] = [
	{ path: '/openapi.json', method: 'get', summary: 'This description.', answers: { 200: 'The description' } },
	{ path: '/schema', method: 'get', summary: 'The JSON Schema of a rollout document.', answers: { 200: 'The schema' } },
	{
		path: '/rollouts',
		method: 'get',
		summary: 'Every rollout, the one changed last first.',
		answers: { 200: 'The list' }
	},
	{
		path: '/rollouts',
		method: 'post',
		summary: 'Makes a rollout from a document.',
		bodyRef: document,
		answers: { 201: 'Made; its address is in the header location' }
	},
	{
		path: one,
		method: 'get',
		summary: 'The document of a rollout.',
		answers: { 200: 'The document; etag is its revision' }
	},
	{
		path: one,
		method: 'put',
		summary: 'Puts another document in place of this one, as one change.',
		bodyRef: document,
		answers: { 200: 'Changed' },
		isChange: true
	},
	{
		path: one,
		method: 'delete',
		summary: 'Deletes a rollout; it can be restored for 30 days.',
		query: [
			{ name: 'name', required: true, description: "The site's name, as a safeguard", schema: { type: 'string' } }
		],
		answers: { 200: 'Deleted' }
	},
	{ path: `${one}/restore`, method: 'post', summary: 'Takes the deletion back.', answers: { 200: 'Restored' } },
	{
		path: `${one}/changes`,
		method: 'get',
		summary: 'The change record, the latest first.',
		query: [
			{ name: 'before', description: 'Only changes with a smaller number', schema: number },
			{ name: 'limit', description: 'How many, 50 where left out, at most 500', schema: number }
		],
		answers: { 200: 'The changes' }
	},
	{
		path: `${one}/changes/{number}`,
		method: 'get',
		summary: 'One change with what it touched, before and after.',
		answers: { 200: 'The change' }
	},
	{
		path: `${one}/record`,
		method: 'get',
		summary: 'Verifies the change record: its head, every place that does not fit, and where a clock was set back.',
		query: [
			{
				name: 'head',
				description: 'A head printed earlier, number and seal, like 12·3f09ab77c1',
				schema: { type: 'string' }
			}
		],
		answers: { 200: 'What was found' }
	},
	{
		path: `${one}/undo`,
		method: 'post',
		summary: 'Takes a change back: the one named, else the latest in effect.',
		body: { type: 'object', properties: { change: number }, additionalProperties: false },
		answers: { 200: 'Taken back' }
	},
	{
		path: `${one}/redo`,
		method: 'post',
		summary: 'Makes the change again that was taken back last.',
		answers: { 200: 'Made again' }
	},
	{
		path: `${one}/issues`,
		method: 'get',
		summary: 'The revisions that were issued, the latest first.',
		answers: { 200: 'The list' }
	},
	{
		path: `${one}/issues`,
		method: 'post',
		summary: 'Issues the rollout as it stands: its document is kept under the next letter.',
		body: {
			type: 'object',
			properties: { note: { type: 'string', description: 'What this revision is for' } },
			required: ['note'],
			additionalProperties: false
		},
		answers: { 201: 'Issued' }
	},
	{
		path: `${one}/issues/{letter}`,
		method: 'get',
		summary: 'The document as it was issued.',
		query: [{ name: 'download', description: 'Offers it as a file', schema: { type: 'string' } }],
		answers: { 200: 'The document' }
	},
	{
		path: `${one}/issues/{letter}`,
		method: 'delete',
		summary: 'Withdraws an issue: its document is erased, its letter is not given out again.',
		answers: { 200: 'Withdrawn' }
	},
	{
		path: `${one}/exports`,
		method: 'get',
		summary: 'Every export with the files that it makes of the rollout.',
		answers: { 200: 'The exports' }
	},
	{
		path: `${one}/exports/{export}/{file}`,
		method: 'get',
		summary: 'A file of an export: the document, calendars, the open data model and its report.',
		answers: { 200: 'The file' }
	},
	{
		path: `${one}/lists`,
		method: 'get',
		summary: 'Every list that can be taken out as a table, with its columns.',
		answers: { 200: 'The lists' }
	},
	{
		path: `${one}/lists/{list}`,
		method: 'get',
		summary:
			'A list as CSV (a cell that a spreadsheet program would take for a formula has an apostrophe before it) or as a workbook.',
		query: [
			{
				name: 'column',
				description:
					'The key of a column, once for each and in their order; the first columns of the list where left out',
				schema: { type: 'array', items: { type: 'string' } }
			},
			{ name: 'format', description: 'csv where left out', schema: { type: 'string', enum: ['csv', 'xlsx'] } },
			{
				name: 'delimiter',
				description: 'What parts the columns of a CSV; comma where left out',
				schema: { type: 'string', enum: ['comma', 'semicolon', 'tab', 'pipe'] }
			}
		],
		answers: { 200: 'The file' }
	},
	{ path: `${one}/jobs`, method: 'get', summary: 'Long work since the server started.', answers: { 200: 'The jobs' } },
	{
		path: `${one}/jobs`,
		method: 'post',
		summary: 'Starts long work on a question; what it finds becomes a proposal.',
		body: {
			type: 'object',
			properties: { answer: { type: 'string', description: 'The name of the question' }, params: { type: 'object' } },
			required: ['answer'],
			additionalProperties: false
		},
		answers: { 202: 'Started; its address is in the header location' }
	},
	{ path: `${one}/jobs/{job}`, method: 'get', summary: 'How far a job is.', answers: { 200: 'The job' } },
	{
		path: `${one}/jobs/{job}`,
		method: 'delete',
		summary: 'Asks a job to stop with the best that it has.',
		answers: { 200: 'The job' }
	},
	{
		path: `${one}/jobs/{job}/events`,
		method: 'get',
		summary: 'The news of a job as server-sent events, until it is over.',
		answers: { 200: 'Events, each with the job as JSON' }
	},
	{
		path: `${one}/proposals`,
		method: 'get',
		summary: 'What long work found, the latest first.',
		answers: { 200: 'The list' }
	},
	{
		path: `${one}/proposals/{number}`,
		method: 'get',
		summary: 'A proposal with its answer.',
		answers: { 200: 'The proposal' }
	},
	{
		path: `${one}/proposals/{number}`,
		method: 'delete',
		summary: 'Removes a proposal that was not adopted.',
		answers: { 200: 'Removed' }
	},
	{
		path: `${one}/proposals/{number}/adopt`,
		method: 'post',
		summary: "Takes a proposed plan's bookings over into the document, as one change.",
		body: {
			type: 'object',
			properties: {
				evenIfOutdated: { type: 'boolean', description: 'Also when the document is another than the one planned for' }
			},
			additionalProperties: false
		},
		answers: { 200: 'Adopted' }
	}
];
