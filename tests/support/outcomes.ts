import type { Outcome } from '../../src/lib/server/outcome';

/** The value of an outcome; throws what was refused. */
export function valueOf<T>(outcome: Outcome<T>): T {
	if (!outcome.ok) throw new Error(`${outcome.why}: ${outcome.faults.map((one) => one.message).join('\n')}`);
	return outcome.value;
}

/** Why an outcome was refused, where, and in which words; throws when it was not. */
export function refusalOf(outcome: Outcome<unknown>): {
	readonly why: string;
	readonly paths: readonly string[];
	readonly messages: string;
} {
	if (outcome.ok) throw new Error('this should have been refused');
	const { why, faults } = outcome;
	return { why, paths: faults.map((one) => one.path), messages: faults.map((one) => one.message).join('\n') };
}
