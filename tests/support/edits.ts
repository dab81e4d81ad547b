import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';
import type { ReadDocument } from '../../src/lib/core/document/read';
import { type Change, applyEdit } from '../../src/lib/core/edits';
import { smallSite } from './small-site';

/** The small site as it was read. */
export function site(changed: Readonly<Record<string, unknown>> = {}): ReadDocument {
	const read = readRolloutValue(smallSite(changed));
	if (!read.ok) throw new Error('the small site can be read');
	return read.value;
}

/** What an edit makes of it; throws what is refused. */
export function done(name: string, params: unknown, before = site()): Change {
	const after = applyEdit(before, name, params);
	if (!after.ok) throw new Error(after.faults.map((one) => one.message).join('\n'));
	return after.value;
}

/** Where an edit is refused, with the nearest name where one is offered. */
export function refusals(name: string, params: unknown, before = site()): string[] {
	const after = applyEdit(before, name, params);
	if (after.ok) throw new Error('this should have been refused');
	return after.faults.map((one) => `${one.path}${one.nearest === undefined ? '' : ` (${one.nearest}?)`}`);
}

/** The sentences of a refusal. */
export function messages(name: string, params: unknown, before = site()): string {
	const after = applyEdit(before, name, params);
	return after.ok ? '' : after.faults.map((one) => one.message).join('\n');
}
