import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findAnswer } from '$lib/core/answers';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import type { Rollout } from '$lib/core/document/schema';
import type { Work } from '$lib/core/kernel/work';

const folder = fileURLToPath(new URL('../../../demo-data/', import.meta.url));

/** The bytes of a file of the demo data. */
export function demoBytes(name: string): Uint8Array {
	return readFileSync(join(folder, name));
}

/** A document of the demo data as the program reads it; throws, with the faults, when it is refused. */
export function demoRollout(input: string | Uint8Array): Rollout {
	const read = readRollout(input);
	if (!read.ok) throw new Error(JSON.stringify(read.faults, null, 1));
	return read.value.rollout;
}

/** What a question answers about a rollout, as `--json` would print it; throws when it refuses. */
export async function ask(name: string, rollout: Rollout, params: object = {}): Promise<unknown> {
	const answer = await findAnswer(name);
	if (!answer) throw new Error(`no question is called ${name}`);
	const result = await answer.run(rollout, answer.params.parse(params), timed());
	if (!result.ok) throw new Error(JSON.stringify(result.faults, null, 1));
	return JSON.parse(JSON.stringify(result.value));
}

/** Work that nobody watches, by a real clock, so that a question which works until its time is over comes to an end. */
function timed(): Work {
	const started = performance.now();
	return {
		report: () => undefined,
		isCancelled: () => false,
		secondsSpent: () => (performance.now() - started) / 1000
	};
}
