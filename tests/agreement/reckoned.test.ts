import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { changesOf } from '../../src/lib/core/access/compare';
import access from '../../src/lib/core/answers/access';
import check from '../../src/lib/core/answers/check';
import compare from '../../src/lib/core/answers/compare';
import explain from '../../src/lib/core/answers/explain';
import type { Result } from '../../src/lib/core/kernel/result';
import { unwatched } from '../../src/lib/core/kernel/work';
import type { PlainDocument } from '../oracles/plain-rollout';
import { checkDisagreement, rolloutOf } from './agree';

/**
 * Random documents in zones whose clocks do odd things, some with horizons of years, and the answers that a third program
 * once gave, which was written from the document format alone, in another language, with another time zone library (Python
 * 3.11, `zoneinfo`, IANA data 2025b). The answers lie in `reckoned/cases.jsonl`, one case in a line: core and oracle run on
 * one platform's time zone data here, and could be wrong together.
 */
interface Case {
	readonly name: string;
	readonly document: PlainDocument;
	readonly findings: readonly { readonly code: string; readonly subject: object; readonly dates: readonly string[] }[];
	readonly access: readonly {
		readonly person: string;
		readonly from: string;
		readonly until: string;
		/** Door, first instant, first instant after. */
		readonly spans: readonly (readonly [string, string, string])[];
	}[];
	readonly explain: readonly {
		readonly person: string;
		readonly door: string;
		readonly at: string;
		readonly allowed: boolean;
		readonly because: readonly object[];
		readonly doorsWalked: number | null;
		readonly nextAllowed: string | null;
	}[];
	/** Over the whole horizon: for each door how many spans, and how many minutes in all. */
	readonly over?: { readonly person: string; readonly doors: readonly (readonly [string, number, number])[] };
	readonly later?: PlainDocument;
	/** Person, door, minutes gained and lost from the document to the later one. */
	readonly changes?: readonly (readonly [string, string, number, number])[];
}

const cases = readFileSync(new URL('reckoned/cases.jsonl', import.meta.url), 'utf8')
	.split('\n')
	.filter((line) => line !== '')
	.map((line) => JSON.parse(line) as Case);

function valueOf<T>(result: Result<T>): T {
	if (!result.ok) throw new Error(result.faults.map((fault) => fault.message).join('\n'));
	return result.value;
}

/** In one order, with keys in one order, whatever order they came in. */
function sorted(list: readonly object[]): string[] {
	return list.map((entry) => JSON.stringify(Object.entries(entry).sort())).sort();
}

it('there are cases of every kind', () => {
	expect(cases.length).toBeGreaterThan(25);
	expect(new Set(cases.flatMap(({ findings }) => findings.map(({ code }) => code))).size).toBeGreaterThan(15);
});

describe.each(cases)('$name', ({ document, later, ...expected }) => {
	const rollout = rolloutOf(document);

	it('check', async () => {
		const { findings } = valueOf(await check.run(rollout, {}, unwatched));
		const counted = new Set(expected.findings.filter((finding) => 'count' in finding).map(({ code }) => code));
		const plain = findings.map(({ code, subject, dates, count }) =>
			counted.has(code) ? { code, subject, dates, count } : { code, subject, dates }
		);
		expect(sorted(plain)).toEqual(sorted(expected.findings));
		if (expected.over === undefined) expect(await checkDisagreement(document)).toBeUndefined();
	});

	it('access', async () => {
		for (const { person, from, until, spans } of expected.access) {
			const question = { person, from: from as never, until: until as never };
			const answer = valueOf(await access.run(rollout, question, unwatched));
			expect(answer.spans.map((span) => [span.door, span.from, span.to])).toEqual(spans);
		}
		const { from, until } = document.horizon;
		for (const [door, spans, minutes] of expected.over?.doors ?? []) {
			const question = { person: expected.over?.person ?? '', door, from: from as never, until: until as never };
			const answer = valueOf(await access.run(rollout, question, unwatched));
			const lengths = answer.spans.map((span) => (Date.parse(span.to) - Date.parse(span.from)) / 60_000);
			expect([lengths.length, lengths.reduce((sum, length) => sum + length, 0)]).toEqual([spans, minutes]);
		}
	});

	it('explain', async () => {
		for (const { person, door, at, allowed, because, doorsWalked, nextAllowed } of expected.explain) {
			const answer = valueOf(await explain.run(rollout, { person, door, at: at as never }, unwatched));
			expect({
				allowed: answer.allowed,
				because: sorted(answer.because),
				doorsWalked: answer.route?.length ?? null,
				nextAllowed: answer.nextAllowed
			}).toEqual({ allowed, because: sorted(because), doorsWalked, nextAllowed });
		}
	});

	if (later === undefined) return;
	it('compare', async () => {
		const answer = valueOf(await compare.run(rollout, { with: rolloutOf(later) }, unwatched));
		const changes = [...changesOf(answer)].map(({ person, door, gained, lost }) => ({ person, door, gained, lost }));
		expect(sorted(changes)).toEqual(
			sorted((expected.changes ?? []).map(([person, door, gained, lost]) => ({ person, door, gained, lost })))
		);
	});
});
