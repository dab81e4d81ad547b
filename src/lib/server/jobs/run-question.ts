import { randomUUID } from 'node:crypto';
import type { Answer } from '../../core/answers/define-answer';
import type { Rollout } from '../../core/document/schema';
import type { Result } from '../../core/kernel/result';
import { unwatched } from '../../core/kernel/work';
import { memoryOf } from './memory';
import { Thread, hasWorker } from './thread';

/** From so many people on, questions are answered outside of the server's thread: they may take seconds. */
const manyPeople = 1_500;

let shared: Thread | undefined;
const keyByRollout = new WeakMap<Rollout, string>();

/**
 * Answers a question so that nobody else has to wait for it: a short one of a small rollout at once, one of a large
 * rollout in a thread for all such questions, long work in a thread of its own.
 */
export async function runQuestion<Params, Value>(
	question: Answer<Params, Value>,
	rollout: Rollout,
	params: Params
): Promise<Result<Value>> {
	const isLong = question.isLong === true;
	// In development the worker may not be built; then everybody waits.
	if (!hasWorker() || !(isLong || rollout.people.length >= manyPeople))
		return question.run(rollout, params, unwatched, memoryOf(rollout));
	const asked = { answer: question.name, params, key: keyOf(rollout), rollout };
	if (!isLong) return (await sharedThread().ask(asked)) as Result<Value>;
	const own = new Thread();
	try {
		return (await own.ask(asked)) as Result<Value>;
	} finally {
		await own.end();
	}
}

/** Ends the thread for all; it is started anew when needed. */
export async function endSharedThread(): Promise<void> {
	const thread = shared;
	shared = undefined;
	await thread?.end();
}

function sharedThread(): Thread {
	if (!shared || shared.isOver) shared = new Thread();
	return shared;
}

/** A rollout in memory is never changed, so the object itself is the state; the name only carries it across. */
function keyOf(rollout: Rollout): string {
	const key = keyByRollout.get(rollout) ?? randomUUID();
	keyByRollout.set(rollout, key);
	return key;
}
