import { answerNames, findAnswer } from '../lib/core/answers';
import { optionsOf } from '../lib/core/answers/support/options';
import { type Fault, fault } from '../lib/core/kernel/fault';
import { nearestName } from '../lib/core/kernel/nearest';
import { ask, filesOfCommand, knownOptions } from './ask';
import { type Call, type KnownOption, readCall } from './call';
import type { Io } from './io';
import { rosterOptions } from './roster-options';
import { verifyOptions } from './verify-options';
import { type Outcome, faultsText, faultsValue, ofCall, status } from './outcome';

const shared: readonly KnownOption[] = [
	{ name: 'json', isFlag: true },
	{ name: 'help', isFlag: true }
];

/** A command: which options it knows, its help, and what it does. */
interface Command {
	readonly options: readonly KnownOption[];
	/** How many of its options and words can be files: their faults then tell which. */
	readonly hasManyFiles: boolean;
	help(): Promise<string> | string;
	run(call: Call, io: Io): Promise<Outcome>;
}

/**
 * Runs one command and gives the exit status: 0 done, 1 done and something of severity error found, 2 the input or the
 * call at fault. What is thrown is for the caller: the program failed.
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
	const [name = '', ...rest] = args;
	if (name === '--help' || name === '-h' || name === 'help') return showHelp(rest, io);
	const command = name.startsWith('-') ? undefined : await findCommand(name);
	if (!command) {
		const isJson = args.includes('--json');
		if (args.length === 0) {
			await io.err(`${await (await import('./help')).overview()}\n`);
			return status.refused;
		}
		return end('', { kind: 'faults', faults: ofCall([noSuchCommand(name)]) }, isJson, undefined, io);
	}
	const call = readCall(rest, [...command.options, ...shared]);
	if (call.flags.has('help')) {
		await io.out(`${await command.help()}\n`);
		return status.done;
	}
	return end(name, await command.run(call, io), call.flags.has('json'), command, io);
}

async function findCommand(name: string): Promise<Command | undefined> {
	if (name === 'serve') {
		return {
			options: [],
			hasManyFiles: false,
			help: async () => (await import('./help')).serveHelp(),
			run: serve
		};
	}
	if (name === 'import-roster') {
		return {
			options: rosterOptions,
			hasManyFiles: true,
			help: async () => (await import('./help')).rosterHelp(),
			run: async (call, io) => (await import('./import-roster')).importRosterCommand(call, io)
		};
	}
	if (name === 'verify-record') {
		return {
			options: verifyOptions,
			hasManyFiles: false,
			help: async () => (await import('./help')).verifyHelp(),
			run: async (call, io) => (await import('./verify-record')).verifyRecordCommand(call, io)
		};
	}
	const answer = await findAnswer(name);
	if (!answer) return undefined;
	return {
		options: knownOptions(answer),
		hasManyFiles: filesOfCommand(optionsOf(answer.params)).length > 1,
		help: async () => (await import('./help')).helpOf(answer),
		run: (call, io) => ask(answer, call, io)
	};
}

async function serve(call: Call, io: Io): Promise<Outcome> {
	const faults: Fault[] = [...call.faults, ...call.words.map((word) => fault(['file'], word, 'nothing after serve'))];
	if (faults.length > 0) return { kind: 'faults', faults: ofCall(faults) };
	return { kind: 'ended', status: await io.serve() };
}

async function showHelp([name]: readonly string[], io: Io): Promise<number> {
	const command = name === undefined || name.startsWith('-') ? undefined : await findCommand(name);
	if (name !== undefined && !name.startsWith('-') && !command) {
		return end('', { kind: 'faults', faults: ofCall([noSuchCommand(name)]) }, false, undefined, io);
	}
	await io.out(`${command ? await command.help() : await (await import('./help')).overview()}\n`);
	return status.done;
}

function noSuchCommand(name: string): Fault {
	const names = [...answerNames, 'import-roster', 'serve', 'verify-record'].sort();
	const expected = `a command: ${names.join(', ')}`;
	return fault(['command'], name === '' ? undefined : name, expected, nearestName(name, names));
}

async function end(
	name: string,
	outcome: Outcome,
	isJson: boolean,
	command: Command | undefined,
	io: Io
): Promise<number> {
	switch (outcome.kind) {
		case 'ended':
			return outcome.status;
		case 'faults': {
			const { faults } = outcome;
			if (isJson) await io.out(`${JSON.stringify(faultsValue(faults, command?.hasManyFiles ?? false))}\n`);
			else await io.err(`${faultsText(name, faults, command?.options.map((option) => option.name) ?? [])}\n`);
			return status.refused;
		}
		case 'value':
			if (isJson) for (const piece of outcome.json) await io.out(piece);
			await io.out(isJson ? '\n' : `${outcome.text()}\n`);
			return outcome.isBad ? status.bad : status.done;
	}
}
