import { readRollout } from '../lib/core/answers/support/read-rollout';
import type { Rollout } from '../lib/core/document/schema';
import { type Fault, fault } from '../lib/core/kernel/fault';
import { type Result, ok, refused } from '../lib/core/kernel/result';
import type { Io } from './io';

/** More than this is no rollout and no roster, and more than a text can hold. */
const mostBytes = 256 * 1024 * 1024;

/** What a system's error about a file means, by its code. */
const expectedByCode: Readonly<Record<string, string>> = {
	ENOENT: 'a file that exists',
	EISDIR: 'a file; this is a folder',
	EACCES: 'a file that may be read; the system denies it',
	EPERM: 'a file that may be read; the system denies it',
	ENOTDIR: 'a file that exists; a part of its path is no folder',
	ELOOP: 'a file that exists; its links lead round in a circle',
	ENAMETOOLONG: 'a file that exists; its name is too long'
};

/** Reads the bytes of a file, or of standard input for `-`. Its faults point at the parameter that names it. */
export async function readBytes(io: Io, param: string, path: string): Promise<Result<Uint8Array>> {
	try {
		const bytes = path === '-' ? await io.readStdin() : await io.readFile(path);
		if (bytes.length <= mostBytes) return ok(bytes);
		return refused([fault([param], path, `a file of at most ${mostBytes / 1024 / 1024} MB`)]);
	} catch (error) {
		const code = error instanceof Error && 'code' in error ? String(error.code) : '';
		if (code === '') throw error;
		return refused([fault([param], path, expectedByCode[code] ?? `a file that can be read; the system says ${code}`)]);
	}
}

/** A file that was read as a rollout document: the rollout, or what is wrong with the call or with the document. */
export interface ReadFile {
	readonly rollout: Rollout | undefined;
	readonly callFaults: readonly Fault[];
	readonly documentFaults: readonly Fault[];
}

/** Reads the rollout document that a parameter names. */
export async function readRolloutFile(io: Io, param: string, path: string): Promise<ReadFile> {
	const bytes = await readBytes(io, param, path);
	if (!bytes.ok) return { rollout: undefined, callFaults: bytes.faults, documentFaults: [] };
	const read = readRollout(bytes.value);
	return read.ok
		? { rollout: read.value.rollout, callFaults: [], documentFaults: [] }
		: { rollout: undefined, callFaults: [], documentFaults: read.faults };
}
