import { answerJson } from '../lib/core/roster/answer-json';
import { importRoster } from '../lib/core/roster/import-roster';
import { type Fault, fault } from '../lib/core/kernel/fault';
import type { Call } from './call';
import { readBytes, readRolloutFile } from './files';
import type { Io } from './io';
import { type Outcome, type ToldFault, inFile, ofCall } from './outcome';
import { rosterText } from './roster-text';

/** Reads a list of people and tells what it would change. */
export async function importRosterCommand(call: Call, io: Io): Promise<Outcome> {
	const [path, ...more] = call.words;
	const callFaults: Fault[] = [...call.faults];
	const fileFaults: ToldFault[] = [];
	for (const word of more) callFaults.push(fault(['roster'], word, 'one file and no more'));
	const named = [path, call.values.get('map'), call.values.get('into')];
	if (named.filter((one) => one === '-').length > 1) {
		return { kind: 'faults', faults: ofCall([...callFaults, fault(['roster'], '-', 'standard input only once')]) };
	}
	const bytes = await readNamed(io, 'roster', path, callFaults);
	if (path === undefined) {
		callFaults.push(fault(['roster'], undefined, 'ROSTER: the path of a list of people, or - for standard input'));
	}
	const map = await readMap(io, call.values.get('map'), callFaults, fileFaults);
	const into = call.values.get('into');
	const target = into === undefined ? undefined : await readRolloutFile(io, 'into', into);
	callFaults.push(...(target?.callFaults ?? []));
	if (into !== undefined && target) fileFaults.push(...inFile(into, target.documentFaults));
	if (bytes === undefined || path === undefined || callFaults.length + fileFaults.length > 0) {
		return { kind: 'faults', faults: [...ofCall(callFaults), ...fileFaults] };
	}
	const result = importRoster(bytes, { map, into: target?.rollout });
	if (!result.ok) return { kind: 'faults', faults: inFile(path, result.faults) };
	const { value } = result;
	return { kind: 'value', json: answerJson(value), text: () => rosterText(value, target?.rollout), isBad: false };
}

async function readNamed(
	io: Io,
	param: string,
	path: string | undefined,
	faults: Fault[]
): Promise<Uint8Array | undefined> {
	if (path === undefined) return undefined;
	const read = await readBytes(io, param, path);
	if (read.ok) return read.value;
	faults.push(...read.faults);
	return undefined;
}

async function readMap(
	io: Io,
	path: string | undefined,
	callFaults: Fault[],
	fileFaults: ToldFault[]
): Promise<unknown> {
	const bytes = await readNamed(io, 'map', path, callFaults);
	if (bytes === undefined || path === undefined) return undefined;
	try {
		return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown;
	} catch {
		fileFaults.push(...inFile(path, [fault([], `${bytes.length} bytes`, 'a map in JSON, in UTF-8')]));
		return undefined;
	}
}
