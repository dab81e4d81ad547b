import { expect } from 'vitest';
import access from '../../src/lib/core/answers/access';
import check from '../../src/lib/core/answers/check';
import explain from '../../src/lib/core/answers/explain';
import { unwatched } from '../../src/lib/core/kernel/work';
import { AccessOracle } from '../oracles/access-oracle';
import type { PlainDocument } from '../oracles/plain-rollout';
import { accessDisagreement, checkDisagreement, explainDisagreementAt, rolloutOf } from './agree';

/**
 * What the core answers about person `p` of a small document, in a form that is easy to write down by hand. Each of them
 * first asks that the evaluation minute by minute agrees.
 */

const daysBetween = (from: string, until: string) => (Date.parse(until) - Date.parse(from)) / 86_400_000;

/** When the person may open a door, over the horizon unless other dates are given: `FROM TO`. */
export async function spansOf(
	document: PlainDocument,
	door: string,
	from = document.horizon.from,
	until = document.horizon.until
): Promise<string[]> {
	const after = daysBetween(document.horizon.from, from);
	expect(await accessDisagreement(document, 'p', after, daysBetween(from, until))).toBeUndefined();
	const question = { person: 'p', door, from: from as never, until: until as never };
	const answer = await access.run(rolloutOf(document), question, unwatched);
	if (!answer.ok) throw new Error('refused');
	return answer.value.spans.map((span) => `${span.from} ${span.to}`);
}

/** What `check` finds: `CODE`, the ids of the subject, the dates; sorted. */
export async function found(document: PlainDocument): Promise<string[]> {
	expect(await checkDisagreement(document)).toBeUndefined();
	const answer = await check.run(rolloutOf(document), {}, unwatched);
	if (!answer.ok) throw new Error('refused');
	return answer.value.findings
		.map(({ code, subject, dates }) => [code, ...Object.values(subject).flat(), ...dates].join(' '))
		.sort();
}

/** Why the person may open a door at a local date and time, or may not. */
export async function explained(document: PlainDocument, door: string, at: string) {
	const [date = '', time = ''] = at.split('T');
	expect(await explainDisagreementAt(new AccessOracle(document), 'p', door, date, time)).toBeUndefined();
	const answer = await explain.run(rolloutOf(document), { person: 'p', door, at: at as never }, unwatched);
	if (!answer.ok) throw new Error('refused');
	return answer.value;
}
