import { prepare } from '../../src/tools/prepare.mjs';

/** Runs before the browser tests: they use what is built, and must not judge an older state of the source. */
export default function setup(): Promise<void> {
	return prepare(['app', 'cli', 'worker', 'browser']);
}
