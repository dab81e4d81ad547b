import type { Fault } from '../lib/core/kernel/fault';
import { pathOf } from '../lib/core/kernel/fault';

/** How a command ended; the number is the exit status. */
export const status = { done: 0, bad: 1, refused: 2, failed: 3 } as const;

/** What a command gives: a value as the text of its JSON, in pieces, and as text for a person, or faults. */
export type Outcome =
	| { readonly kind: 'value'; readonly json: Iterable<string>; readonly text: () => string; readonly isBad: boolean }
	| { readonly kind: 'faults'; readonly faults: readonly ToldFault[] }
	| { readonly kind: 'ended'; readonly status: number };

/** A fault, and what it is about: the call, or a file by the name that it was given. */
export interface ToldFault {
	readonly fault: Fault;
	readonly file: string | undefined;
}

/** Faults of the call itself: their paths name parameters. */
export function ofCall(faults: readonly Fault[]): ToldFault[] {
	return faults.map((fault) => ({ fault, file: undefined }));
}

/** Faults in a file. */
export function inFile(file: string, faults: readonly Fault[]): ToldFault[] {
	return faults.map((fault) => ({ fault, file: file === '-' ? 'standard input' : file }));
}

/** As JSON: a fault, and the file where the command was given several. */
export function faultsValue(faults: readonly ToldFault[], hasManyFiles: boolean): unknown {
	return {
		faults: faults.map(({ fault, file }) => (hasManyFiles && file !== undefined ? { ...fault, file } : fault))
	};
}

/** More are not read by anybody at a terminal. */
const mostShown = 40;

/** For a person: a line for each fault, by file. */
export function faultsText(command: string, faults: readonly ToldFault[], optionNames: readonly string[]): string {
	const lines: string[] = [];
	let heading: string | undefined;
	for (const { fault, file } of faults.slice(0, mostShown)) {
		const title = file ?? 'the command line';
		if (title !== heading) lines.push(`doorwright: ${title}`);
		heading = title;
		lines.push(`  ${file === undefined ? withOptionNames(fault, optionNames) : fault.message}`);
	}
	const more = faults.length - mostShown;
	if (more > 0) lines.push(`  … and ${more} more; --json lists all`);
	if (faults.some(({ file }) => file === undefined)) {
		const subject = command === '' ? '' : `${command} `;
		lines.push(`For help: npm run -s doorwright -- ${subject}--help`);
	}
	return lines.join('\n');
}

/** Says `--person` where the path says `$.person`, and FILE for the file. */
function withOptionNames(fault: Fault, optionNames: readonly string[]): string {
	const name = optionNames.find((one) => fault.path === pathOf([one]));
	// An option that there is not is shown as it was typed.
	const word =
		typeof fault.value === 'string' && fault.value.startsWith('--')
			? fault.value.replace(/=.*/s, '')
			: fault.path.slice('$.'.length).toUpperCase();
	const shownAs = name === undefined ? word : `--${name}`;
	return fault.message.startsWith(fault.path) ? shownAs + fault.message.slice(fault.path.length) : fault.message;
}
