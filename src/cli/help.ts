import { allAnswers } from '../lib/core/answers';
import type { Answer } from '../lib/core/answers/define-answer';
import { type AnswerOption, optionsOf } from '../lib/core/answers/support/options';
import { textTable } from '../lib/core/kernel/text-table';
import { filesOfCommand } from './ask';
import { rosterOptions } from './roster-options';
import { verifyOptions } from './verify-options';

/** Help, made from the definitions of the questions. */

export const rosterSummary =
	'Reads a list of people and tells what it holds, what is wrong in it, and what it would change.';
export const verifySummary = 'Verifies the change records in a data folder: what was altered shows, and where.';
export const serveSummary = 'Serves the app on this machine, as npm start does.';

const call = 'npm run -s doorwright --';

const statuses = textTable(
	[{ heading: 'Exit status' }, { heading: '' }],
	[
		['0', 'done'],
		['1', 'done, and something of severity error was found'],
		['2', 'the input or the call is at fault; every fault is told'],
		['3', 'the program failed']
	]
);

const caution =
	'Plans and findings do not replace local codes, the authority having jurisdiction, licensed practice on site, or counsel.';

/** All commands, each with one sentence. */
export async function overview(): Promise<string> {
	const answers = await allAnswers();
	const rows = [
		...[...answers.values()].map((answer) => [usageOf(answer), answer.summary]),
		['import-roster ROSTER', rosterSummary],
		['serve', serveSummary],
		['verify-record', verifySummary]
	].sort(([a = ''], [b = '']) => (a < b ? -1 : 1));
	return [
		'Doorwright plans the go-live day of doors that open to a fingerprint.',
		`Usage: ${call} COMMAND FILE [options]`,
		textTable([{ heading: 'Command' }, { heading: '' }], rows),
		'FILE is a rollout document in JSON, or - for standard input. COMMAND --help tells the options of a command.\n' +
			'With --json the answer is one JSON value on standard output, and nothing else stands there.',
		statuses,
		caution
	].join('\n\n');
}

/** Everything about the command of a question. */
export function helpOf(answer: Answer<unknown, unknown>): string {
	const options = optionsOf(answer.params).filter(({ kind }) => kind !== 'document');
	const documents = optionsOf(answer.params).filter(({ kind }) => kind === 'document');
	const rows = options.map((option) => [
		`--${option.name} ${placeholderOf(option)}`,
		[option.description, noteOf(option)].filter((part) => part !== '').join(' ')
	]);
	if (answer.isLong) rows.push(['--progress', 'Tell the progress on standard error, also where nobody watches it']);
	return commandHelp(
		`${usageOf(answer)}${options.map(usageOfOption).join('')} [--json]`,
		answer.summary,
		rows,
		documents.map(
			({ description }, place) =>
				`${String(filesOfCommand(optionsOf(answer.params))[place + 1]?.shownAs)}: ${description}.`
		)
	);
}

/** Everything about `import-roster`. */
export function rosterHelp(): string {
	return commandHelp(
		'import-roster ROSTER [--map FILE] [--into FILE] [--json]',
		rosterSummary,
		rosterOptions.map(({ name, description }) => [`--${name} FILE`, description]),
		[
			'ROSTER is a list of people: a workbook (.xlsx) or delimited text (CSV) in any usual encoding, or - for standard input.'
		]
	);
}

/** Everything about `verify-record`. */
export function verifyHelp(): string {
	return commandHelp(
		'verify-record [--data FOLDER] [--rollout ID] [--head HEAD] [--json]',
		verifySummary,
		verifyOptions.map(({ name, placeholder, description }) => [`--${name} ${placeholder}`, description]),
		[
			'Exit status 1 where a record does not fit. Without a head that was printed earlier and kept elsewhere, nobody can tell a record that was written anew as a whole.'
		]
	);
}

/** Everything about `serve`. */
export function serveHelp(): string {
	return commandHelp(
		'serve',
		serveSummary,
		[],
		['PORT in the environment names the port; DOORWRIGHT_DATA names the folder of the database.']
	);
}

function commandHelp(usage: string, summary: string, options: string[][], remarks: readonly string[]): string {
	const shared = [
		...(usage.includes('--json') ? [['--json', 'One JSON value on standard output, and nothing else there']] : []),
		['--help', 'This text']
	];
	return [
		`Usage: ${call} ${usage}`,
		summary,
		...remarks,
		textTable([{ heading: 'Option' }, { heading: '' }], [...options, ...shared]),
		statuses
	].join('\n\n');
}

function usageOf(answer: Answer<unknown, unknown>): string {
	const files = filesOfCommand(optionsOf(answer.params)).map(({ shownAs }) => shownAs);
	return [answer.name, ...files].join(' ');
}

function usageOfOption(option: AnswerOption): string {
	const text = `--${option.name} ${placeholderOf(option)}`;
	return option.isRequired ? ` ${text}` : ` [${text}]`;
}

function placeholderOf({ kind, name, format }: AnswerOption): string {
	if (kind === 'number') return 'N';
	if (format === 'date') return 'DATE';
	return name === 'at' ? 'LOCAL_DATE_TIME' : (name[0] ?? 'X').toUpperCase();
}

function noteOf({ isRequired, fallback, examples }: AnswerOption): string {
	const notes = [
		...(isRequired ? ['needed'] : []),
		...(examples.length > 0 ? [`like ${String(examples[0])}`] : []),
		...(fallback === undefined ? [] : [`${JSON.stringify(fallback)} where left out`])
	];
	return notes.length === 0 ? '' : `(${notes.join(', ')})`;
}
