import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRollout } from '../../src/lib/core/answers/support/read-rollout';
import type { ReadDocument } from '../../src/lib/core/document/read';
import { applyEdit } from '../../src/lib/core/edits';
import { type Mend, findMends, mends } from '../../src/lib/core/mends';
import { type PlainFinding, findingsOf } from '../oracles/findings-oracle';
import type { PlainDocument } from '../oracles/plain-rollout';
import { changesBetween } from '../oracles/questions-oracle';
import { smallRollouts } from '../support/small-rollouts';

// More in a night than in a test run: AGREEMENT_RUNS=2000 AGREEMENT_SEED=7 npx vitest run tests/agreement/mends
const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 6);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);

function keyOf({ code, subject }: Pick<PlainFinding, 'code' | 'subject'>): string {
	return `${code} ${JSON.stringify(Object.entries(subject).sort())}`;
}

/** Errors and warnings, by what identifies them. */
function graveIn(document: PlainDocument): Set<string> {
	return new Set(
		findingsOf(document)
			.filter(({ severity }) => severity !== 'note')
			.map(keyOf)
	);
}

function without(keys: ReadonlySet<string>, others: ReadonlySet<string>): string[] {
	return [...keys].filter((key) => !others.has(key)).sort();
}

/** The minutes that a mend says each person gains and loses at each door. */
function saidBy({ effects }: Mend): Record<string, unknown> {
	return Object.fromEntries(
		effects.rows.flatMap(({ people, doors, gained, lost }) =>
			people.flatMap((person) => doors.map((door) => [JSON.stringify([person, door]), { gained, lost }]))
		)
	);
}

async function holdToOracle(before: ReadDocument, finding: PlainFinding): Promise<number> {
	const subject = finding.subject as Record<string, string>;
	const found = await findMends(before.rollout, finding.code, subject, 50);
	const was = graveIn(before.document);
	expect(found.finding?.subject).toEqual(subject);
	expect(found.whyNone === null).toBe(found.mends.length > 0);
	for (const mend of found.mends) {
		const made = applyEdit(before, 'all-of', { edits: mend.edits, what: mend.does });
		if (!made.ok) throw new Error(made.faults.map(({ message }) => message).join('\n'));
		const after = made.value.document as PlainDocument;
		const is = graveIn(after);
		expect(is.has(keyOf(finding)), `${mend.does}: still there`).toBe(false);
		expect(mend.raises.map(keyOf).sort(), `${mend.does}: raised`).toEqual(without(is, was));
		const said = [keyOf(finding), ...mend.alsoClears.map(keyOf)];
		expect(said.sort(), `${mend.does}: cleared`).toEqual(without(was, is));
		const changes = Object.fromEntries(changesBetween(before.document as PlainDocument, after));
		expect(saidBy(mend), `${mend.does}: effects`).toEqual(changes);
	}
	return found.mends.length;
}

describe('every mend clears its finding and does exactly what it says, by an evaluation minute by minute', () => {
	it.each([6, 12])(
		'over up to %i days',
		async (days) => {
			let count = 0;
			await fc.assert(
				fc.asyncProperty(smallRollouts(days), async (document) => {
					const read = readRollout(JSON.stringify(document));
					if (!read.ok) throw new Error('no valid document');
					for (const finding of findingsOf(read.value.document)) {
						if (mends.has(finding.code)) count += await holdToOracle(read.value, finding);
					}
				}),
				{ numRuns, seed }
			);
			expect(count).toBeGreaterThan(numRuns);
		},
		600_000
	);
});
