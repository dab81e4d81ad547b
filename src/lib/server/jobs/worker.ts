import { parentPort } from 'node:worker_threads';
import { findAnswer } from '../../core/answers';
import { faultsOfIssues } from '../../core/document/faults-of-issues';
import type { Rollout } from '../../core/document/schema';
import { type Result, refused } from '../../core/kernel/result';
import type { Work } from '../../core/kernel/work';
import { errands } from './errands';
import { memoryOf, passMemory } from './memory';
import { patched } from './patch';
import { type Change, type Message, type Order, keepLatest } from './protocol';

/** Answers questions outside of the server's thread, one after the other, so that everybody else is served meanwhile. */

/** Progress is told at most this often: people cannot read it faster. */
const millisecondsBetween = 100;

const rolloutByKey = new Map<string, Rollout>();
let before: Promise<void> = Promise.resolve();

parentPort?.on('message', (order: Order) => {
	before = before.then(() => handle(order));
});

async function handle(order: Order): Promise<void> {
	const { number } = order;
	try {
		tell({ kind: 'result', number, result: await answerOf(order) });
	} catch (error) {
		tell({ kind: 'failure', number, reason: error instanceof Error ? (error.stack ?? error.message) : String(error) });
	}
}

async function answerOf({ number, answer: name, params, key, rollout: sent, stop }: Order): Promise<Result<unknown>> {
	const rollout = sent === null ? rolloutByKey.get(key) : stateOf(key, sent);
	if (!rollout) throw new Error(`the rollout ${key} was not sent`);
	keepLatest(rolloutByKey, key, rollout);
	const answer = (await findAnswer(name)) ?? errands.get(name);
	if (!answer) throw new Error(`there is no answer ${name}`);
	const parsed = answer.params.safeParse(params);
	if (!parsed.success) return refused(faultsOfIssues(params, parsed.error.issues));
	return answer.run(rollout, parsed.data, workOf(number, new Int32Array(stop)), memoryOf(rollout));
}

/** A rollout as it was sent, or made of one that is kept; what is remembered of that one goes over to it. */
function stateOf(key: string, sent: Rollout | Change): Rollout {
	if (!('base' in sent)) return sent;
	const base = rolloutByKey.get(sent.base);
	if (!base) throw new Error(`the rollout ${sent.base}, of which ${key} is made, is not kept`);
	const rollout = patched(base, sent.patch) as Rollout;
	passMemory(base, rollout);
	return rollout;
}

function workOf(number: number, stopFlag: Int32Array): Work {
	const startedAt = performance.now();
	let toldAt = -Infinity;
	return {
		report(done, total, note) {
			const now = performance.now();
			if (now - toldAt < millisecondsBetween && done < total) return;
			toldAt = now;
			tell({ kind: 'progress', number, done, total, note: note ?? null });
		},
		isCancelled: () => Atomics.load(stopFlag, 0) !== 0,
		secondsSpent: () => (performance.now() - startedAt) / 1000
	};
}

function tell(message: Message): void {
	parentPort?.postMessage(message);
}
