import { loadDemoOnFirstStart } from './demo';
import { closeEventStreams } from './event-streams';
import { endComparings } from './jobs/comparings';
import { abandonJobs } from './jobs/jobs';
import { endSharedThread } from './jobs/run-question';
import { eraseOutdated } from './manage-rollouts';
import { forgetAll } from './open-rollouts';
import { closeStore, store } from './store/current';

/**
 * Opens the store, so that a file that cannot be used is told at the start and not to the first visitor; loads the demo
 * on the very first start; sees to it that everything is closed when the server ends: streams and work at once, since
 * the server waits for open connections, the database when nobody asks any more.
 */
export function startServer(): void {
	store();
	eraseOutdated(new Date());
	for (const problem of loadDemoOnFirstStart()) process.stderr.write(`${problem}\n`);
	const listeners = process as NodeJS.EventEmitter;
	listeners.once('doorwright:stopping', () => {
		closeEventStreams();
		void abandonJobs();
		void endComparings();
		void endSharedThread();
	});
	listeners.once('sveltekit:shutdown', endServer);
}

/** Closes the database; what is in memory is forgotten. */
export function endServer(): void {
	forgetAll();
	closeStore();
}
