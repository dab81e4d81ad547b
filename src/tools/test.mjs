import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { prepare } from './prepare.mjs';
import { root, runOpenly, say } from './run.mjs';
import { runSteps } from './steps.mjs';

// Everything that is tested, from a fresh clone on: node src/tools/test.mjs. The last line is `N passed, N failed`.

const report = path.join(root, 'build/tests.json');

/**
 * The counts of the test run. A file that could not even be loaded has no failed test in it, and counts as one.
 * @param {number} status of the test runner
 */
function readReport(status) {
	/** @type {{ numPassedTests: number, numFailedTests: number, testResults: TestFile[] }} */
	const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(report, 'utf8'));
	/** @typedef {{ status: string, assertionResults: { status: string }[] }} TestFile */
	const broken = testResults.filter(
		(file) => file.status === 'failed' && !file.assertionResults.some((result) => result.status === 'failed')
	);
	const failed = numFailedTests + broken.length;
	// An error outside of every test fails the run and nothing in it.
	return { passed: numPassedTests, failed: status === 0 ? failed : Math.max(failed, 1) };
}

async function runTests() {
	mkdirSync(path.dirname(report), { recursive: true });
	rmSync(report, { force: true });
	say('running the tests …');
	const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
	const args = ['node_modules/vitest/vitest.mjs', 'run', '--allowOnly=false', ...reporters];
	return readReport(await runOpenly(process.execPath, args));
}

const results = [];
try {
	await prepare(['app', 'cli', 'worker', 'browser']);
	results.push(await runSteps(['lint', 'types']), await runTests());
} catch (error) {
	say(error instanceof Error ? error.message : String(error));
	results.push({ passed: 0, failed: 1 });
}
const passed = results.reduce((sum, result) => sum + result.passed, 0);
const failed = results.reduce((sum, result) => sum + result.failed, 0);
process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
process.exitCode = failed === 0 ? 0 : 1;
