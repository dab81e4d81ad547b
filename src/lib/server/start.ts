import { eraseOutdated } from './manage-rollouts';
import { loadDemoOnFirstStart } from './demo';
import { forgetAll } from './open-rollouts';
import { closeStore, store } from './store/current';

/**
 * Opens the store, so that a file that cannot be used is told at the start and not to the first visitor; loads the demo
 * on the very first start; sees to it that everything is closed when the server ends.
 */
export function startServer(): void {
	store();
	eraseOutdated(new Date());
	for (const problem of loadDemoOnFirstStart()) process.stderr.write(`${problem}\n`);
	process.once('sveltekit:shutdown', endServer);
}

/** Closes the database; running work and open streams have ended before. */
export function endServer(): void {
	forgetAll();
	closeStore();
}
