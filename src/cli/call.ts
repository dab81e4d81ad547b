import { type Fault, fault } from '../lib/core/kernel/fault';
import { nearestName } from '../lib/core/kernel/nearest';

/** An option that a command knows: `--name VALUE`, or a flag `--name` without a value. */
export interface KnownOption {
	readonly name: string;
	readonly isFlag: boolean;
}

/** The words after a command, sorted. Values are as they were typed. */
export interface Call {
	readonly values: ReadonlyMap<string, string>;
	readonly flags: ReadonlySet<string>;
	/** What is no option, in order: files. */
	readonly words: readonly string[];
	readonly faults: readonly Fault[];
}

/**
 * Sorts the words after a command into options and files; every fault in one go. `--name VALUE` and `--name=VALUE` mean
 * the same; after `--` all are files; `-` is a file (standard input). A value may begin with one hyphen, and with two
 * only after the equals sign.
 * @source common practice: Guidelines 10 and 13 of POSIX.1-2017, section 12.2; long options with two hyphens
 */
export function readCall(args: readonly string[], known: readonly KnownOption[]): Call {
	const values = new Map<string, string>();
	const flags = new Set<string>();
	const words: string[] = [];
	const faults: Fault[] = [];
	for (let at = 0; at < args.length; at++) {
		const arg = args[at] ?? '';
		if (arg === '--') {
			words.push(...args.slice(at + 1));
			break;
		}
		if (arg === '-' || !arg.startsWith('-')) {
			words.push(arg);
			continue;
		}
		const { name, inline } = splitOption(arg);
		const next = args[at + 1];
		const follows = next !== undefined && !next.startsWith('--') ? next : undefined;
		const option = known.find((one) => one.name === name);
		if (!option) {
			const nearest = nearestName(name, namesOf(known));
			faults.push(fault([name], arg, expectedOption(known), nearest === undefined ? undefined : `--${nearest}`));
			// What follows belongs to it, if it is meant for an option with a value.
			const isMeantForValue = known.some((one) => one.name === nearest && !one.isFlag);
			if (isMeantForValue && inline === undefined && follows !== undefined) at++;
		} else if (option.isFlag) {
			if (inline !== undefined) faults.push(fault([name], inline, `no value: --${name} stands alone`));
			flags.add(name);
		} else {
			const value = inline ?? follows;
			if (inline === undefined && value !== undefined) at++;
			if (value === undefined) faults.push(fault([name], undefined, `a value after --${name}`));
			else if (values.has(name)) faults.push(fault([name], value, `--${name} once; it was given already`));
			else values.set(name, value);
		}
	}
	return { values, flags, words, faults };
}

function splitOption(arg: string): { name: string; inline: string | undefined } {
	const bare = arg === '-h' ? 'help' : arg.replace(/^--?/, '');
	const equals = bare.indexOf('=');
	return equals === -1
		? { name: bare, inline: undefined }
		: { name: bare.slice(0, equals), inline: bare.slice(equals + 1) };
}

function namesOf(known: readonly KnownOption[]): string[] {
	return known.map(({ name }) => name);
}

function expectedOption(known: readonly KnownOption[]): string {
	return `one of the options ${namesOf(known)
		.map((name) => `--${name}`)
		.join(', ')}`;
}
