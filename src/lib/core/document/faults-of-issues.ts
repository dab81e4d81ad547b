import type { z } from 'zod';
import { type Fault, type PathStep, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { keysExpected } from './fields';

type Issue = z.core.$ZodIssue;

/** Turns the issues of the schema into faults; an unknown key is pointed at by itself, a missing one where it would stand. */
export function faultsOfIssues(root: unknown, issues: readonly Issue[], base: readonly PathStep[] = []): Fault[] {
	return issues.flatMap((issue) => faultsOfIssue(root, issue, base));
}

function faultsOfIssue(root: unknown, issue: Issue, base: readonly PathStep[]): Fault[] {
	const steps = [...base, ...issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step))];
	const value = valueAt(root, steps);
	if (issue.code === 'unrecognized_keys') {
		const known = keysExpected(issue.message);
		return issue.keys.map((key) =>
			fault([...steps, key], valueAt(root, [...steps, key]), issue.message, nearestName(key, known))
		);
	}
	if (issue.code === 'invalid_union') {
		// A list was meant when a list was found: its own entries tell more than "none of these".
		const ofList = issue.errors.find((branch) => branch.some((inner) => inner.path.length > 0));
		if (ofList && Array.isArray(value)) return faultsOfIssues(root, ofList, steps);
	}
	if (issue.code === 'invalid_key') {
		return [fault(steps, steps.at(-1), issue.issues[0]?.message ?? 'another key')];
	}
	const offered =
		issue.code === 'invalid_value' && typeof value === 'string'
			? nearestName(value, issue.values.map(String))
			: undefined;
	return [fault(steps, value, issue.message, offered)];
}

function valueAt(root: unknown, steps: readonly PathStep[]): unknown {
	let value = root;
	for (const step of steps) {
		if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
		value = (value as Record<PathStep, unknown>)[step];
	}
	return value;
}
