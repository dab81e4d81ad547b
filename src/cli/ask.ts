import { type Answer, jsonOf } from '../lib/core/answers/define-answer';
import { type AnswerOption, optionsOf } from '../lib/core/answers/support/options';
import { paramFaults } from '../lib/core/answers/support/params';
import { faultsOfIssues } from '../lib/core/document/faults-of-issues';
import type { Rollout } from '../lib/core/document/schema';
import { type Fault, fault, pathOf } from '../lib/core/kernel/fault';
import type { Result } from '../lib/core/kernel/result';
import { unwatched } from '../lib/core/kernel/work';
import type { Call, KnownOption } from './call';
import { type ReadFile, readRolloutFile } from './files';
import type { Io } from './io';
import { askLong } from './long-question';
import { type Outcome, type ToldFault, inFile, ofCall } from './outcome';

/** The files of the command of a question: the document, and what else is a document. */
export function filesOfCommand(options: readonly AnswerOption[]): readonly { param: string; shownAs: string }[] {
	const others = options.filter(({ kind }) => kind === 'document').map(({ name }) => name);
	const params = ['file', ...others];
	if (params.length === 1) return [{ param: 'file', shownAs: 'FILE' }];
	return params.map((param, place) => ({ param, shownAs: `FILE_${String.fromCharCode(65 + place)}` }));
}

/** What `readCall` must know of a question's options. */
export function knownOptions(answer: Answer<unknown, unknown>): KnownOption[] {
	const options = optionsOf(answer.params)
		.filter(({ kind }) => kind !== 'document')
		.map(({ name }) => ({ name, isFlag: false }));
	return [...options, ...(answer.isLong ? [{ name: 'progress', isFlag: true }] : [])];
}

/** Asks a question as a call says. Every fault of the call and of its files is told together. */
export async function ask(answer: Answer<unknown, unknown>, call: Call, io: Io): Promise<Outcome> {
	const options = optionsOf(answer.params);
	const read = await readFiles(options, call, io);
	const input = inputOf(options, call, read.rollouts);
	const parsed = answer.params.safeParse(input);
	const rollout = read.rollouts.get('file');

	const before = [...call.faults, ...read.callFaults];
	if (!parsed.success || rollout === undefined || before.length + read.documentFaults.length > 0) {
		const ofInput = [
			...(parsed.success ? [] : faultsOfIssues(input, parsed.error.issues)),
			...(rollout === undefined ? [] : paramFaults(rollout, input))
		];
		const told = new Set([...before, ...read.unread].map(({ path }) => path));
		const callFaults = [...before, ...ofInput.filter(({ path }) => !told.has(path))];
		return { kind: 'faults', faults: [...ofCall(callFaults), ...read.documentFaults] };
	}
	const result = await resultOf(answer, parsed.data, rollout, call, io);
	if (!result.ok) return { kind: 'faults', faults: ofCall(result.faults) };
	const { value } = result;
	return {
		kind: 'value',
		json: jsonOf(answer, value),
		text: () => answer.text(value, rollout, parsed.data),
		isBad: answer.isBad(value)
	};
}

function resultOf(
	answer: Answer<unknown, unknown>,
	params: unknown,
	rollout: Rollout,
	call: Call,
	io: Io
): Promise<Result<unknown>> {
	if (!answer.isLong) return answer.run(rollout, params, unwatched);
	return askLong({ answer: answer.name, params, rollout }, io, call.flags.has('progress'));
}

interface ReadFiles {
	readonly rollouts: ReadonlyMap<string, Rollout>;
	readonly callFaults: readonly Fault[];
	readonly documentFaults: readonly ToldFault[];
	/** Files that are named and could not be read: what they should give is not missing from the call. */
	readonly unread: readonly { readonly path: string }[];
}

async function readFiles(options: readonly AnswerOption[], call: Call, io: Io): Promise<ReadFiles> {
	const files = filesOfCommand(options);
	const rollouts = new Map<string, Rollout>();
	const callFaults: Fault[] = [];
	const documentFaults: ToldFault[] = [];
	const unread: { path: string }[] = [];
	if (call.words.filter((word) => word === '-').length > 1) {
		callFaults.push(fault([files.at(-1)?.param ?? 'file'], '-', 'standard input only once'));
		return { rollouts, callFaults, documentFaults, unread: files.map(({ param }) => ({ path: pathOf([param]) })) };
	}
	for (const [place, { param, shownAs }] of files.entries()) {
		const path = call.words[place];
		if (path === undefined) {
			callFaults.push(fault([param], undefined, `${shownAs}: the path of a rollout document, or - for standard input`));
			continue;
		}
		const read: ReadFile = await readRolloutFile(io, param, path);
		callFaults.push(...read.callFaults);
		documentFaults.push(...inFile(path, read.documentFaults));
		if (read.rollout) rollouts.set(param, read.rollout);
		else unread.push({ path: pathOf([param]) });
	}
	for (const word of call.words.slice(files.length)) {
		callFaults.push(fault(['file'], word, `${files.length === 1 ? 'one file' : `${files.length} files`} and no more`));
	}
	return { rollouts, callFaults, documentFaults, unread };
}

/** The parameters as the question takes them; a number that is none stays text, for its schema to refuse. */
function inputOf(
	options: readonly AnswerOption[],
	call: Call,
	rollouts: ReadonlyMap<string, Rollout>
): Record<string, unknown> {
	const input: Record<string, unknown> = {};
	for (const { name, kind } of options) {
		const value = kind === 'document' ? rollouts.get(name) : call.values.get(name);
		if (value === undefined) continue;
		const isNumber = kind === 'number' && typeof value === 'string' && /^[-+]?(\d+(\.\d+)?|\.\d+)$/.test(value);
		input[name] = isNumber ? Number(value) : value;
	}
	return input;
}
