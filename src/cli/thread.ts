import { Worker, parentPort, workerData } from 'node:worker_threads';
import { findAnswer } from '../lib/core/answers';
import type { Result } from '../lib/core/kernel/result';
import type { Asked, LongQuestion, Progress } from './io';

/** Long questions are answered beside the main thread, which stays free to hear that it should stop. */

interface Order {
	readonly question: LongQuestion;
	/** Four bytes that both threads see: other than 0 asks for a stop. */
	readonly stop: SharedArrayBuffer;
	/** When the program began, in milliseconds since 1970: its seconds are counted from there, reading the file included. */
	readonly beganAt: number;
}

type Message =
	| { readonly kind: 'progress'; readonly news: Progress }
	| { readonly kind: 'result'; readonly result: Result<unknown> };

/** People read no faster. */
const millisecondsBetween = 200;

/** Asks a question in a thread that runs the same program. */
export function askInThread(program: URL, question: LongQuestion, onProgress: (news: Progress) => void): Asked {
	const stop = new SharedArrayBuffer(4);
	const order: Order = { question, stop, beganAt: performance.timeOrigin };
	const worker = new Worker(program, { workerData: order });
	const result = new Promise<Result<unknown>>((resolve, reject) => {
		worker.on('message', (message: Message) => {
			if (message.kind === 'progress') onProgress(message.news);
			else resolve(message.result);
		});
		worker.once('error', reject);
		worker.once('exit', () => reject(new Error('the thread ended without an answer')));
	});
	return {
		result: result.finally(() => worker.terminate()),
		stop: () => void Atomics.store(new Int32Array(stop), 0, 1)
	};
}

/** The other side: answers the question that this thread was started for. */
export async function answerInThread(): Promise<void> {
	const { question, stop, beganAt } = workerData as Order;
	const flag = new Int32Array(stop);
	const before = performance.timeOrigin - beganAt;
	let toldAt = -Infinity;
	const answer = await findAnswer(question.answer);
	if (!answer) throw new Error(`there is no question ${question.answer}`);
	const result = await answer.run(question.rollout, question.params, {
		report(done, total, note) {
			const now = performance.now();
			if (now - toldAt < millisecondsBetween) return;
			toldAt = now;
			tell({ kind: 'progress', news: { done, total, note: note ?? null } });
		},
		isCancelled: () => Atomics.load(flag, 0) !== 0,
		secondsSpent: () => (performance.now() + before) / 1000
	});
	tell({ kind: 'result', result });
}

function tell(message: Message): void {
	parentPort?.postMessage(message);
}
