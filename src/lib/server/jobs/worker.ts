import { parentPort, workerData } from 'node:worker_threads';
import { findAnswer } from '../../core/answers';
import { faultsOfIssues } from '../../core/document/faults-of-issues';
import type { Work } from '../../core/kernel/work';
import type { Message, Order } from './protocol';

/** Runs one question outside of the server's thread, so that everybody else is served meanwhile. Built on its own. */

/** Progress is told at most this often: people cannot read it faster. */
const millisecondsBetween = 100;

const { answer: name, params, rollout, stop } = workerData as Order;
const stopFlag = new Int32Array(stop);
const startedAt = performance.now();
let toldAt = -Infinity;

const work: Work = {
	report(done, total, note) {
		const now = performance.now();
		if (now - toldAt < millisecondsBetween && done < total) return;
		toldAt = now;
		tell({ kind: 'progress', done, total, note: note ?? null });
	},
	isCancelled: () => Atomics.load(stopFlag, 0) !== 0,
	secondsSpent: () => (performance.now() - startedAt) / 1000
};

const answer = await findAnswer(name);
if (!answer) throw new Error(`there is no answer ${name}`);
const parsed = answer.params.safeParse(params);
if (!parsed.success) tell({ kind: 'refusal', faults: faultsOfIssues(params, parsed.error.issues) });
else {
	const result = await answer.run(rollout, parsed.data, work);
	tell(result.ok ? { kind: 'answer', value: result.value } : { kind: 'refusal', faults: result.faults });
}

function tell(message: Message): void {
	parentPort?.postMessage(message);
}
