import { describe, expect, it } from 'vitest';
import { checks } from '$lib/core/checks';
import { ask, demoBytes, demoRollout } from './support/demo-files';
import { type PatchOperation, patched } from './support/json-patch';
import { toldAs, toldFindings } from './support/readme';

interface CheckAnswer {
	findings: { code: string; severity: string; subject: Record<string, string | string[]>; dates: string[] }[];
	counts: { error: number; warning: number; note: number };
}

interface Mend {
	id: string;
	does: string;
	patch: PatchOperation[];
}

const parsed = (name: string): unknown => JSON.parse(new TextDecoder().decode(demoBytes(name)));
const document = parsed('larkfen-cold-store.json');
const mends = parsed('larkfen-mends.json') as Mend[];
const told = toldFindings('What `check` finds');

async function check(value: unknown): Promise<CheckAnswer> {
	return (await ask('check', demoRollout(JSON.stringify(value)))) as CheckAnswer;
}

async function errorsOf(value: unknown): Promise<string[]> {
	const { findings } = await check(value);
	return findings
		.filter(({ severity }) => severity === 'error')
		.map(toldAs)
		.sort();
}

describe('Larkfen Cold Store', () => {
	it('is as large as it says', () => {
		const rollout = demoRollout(demoBytes('larkfen-cold-store.json'));
		expect(rollout.people).toHaveLength(240);
		expect(new Set(rollout.people.map(({ department }) => department)).size).toBe(9);
		expect([rollout.doors, rollout.areas, rollout.schedules].map((list) => list.length)).toEqual([16, 8, 7]);
		expect([rollout.enrollment.stations, rollout.enrollment.waves].map((list) => list.length)).toEqual([3, 3]);
	});

	it('has every finding that the README tells, and no other', async () => {
		const { findings } = await check(document);
		expect(findings.map(toldAs).sort()).toEqual(told.map((one) => one.told).sort());
	});

	it('has a case of each finding of severity error', () => {
		const errors = [...checks.values()].filter(({ severity }) => severity === 'error').map(({ code }) => code);
		const codes = new Set(told.map((one) => one.told.split(' ')[0]));
		expect(errors.filter((code) => !codes.has(code))).toEqual([]);
	});

	it.each(mends)('loses exactly the errors told for it by the edit $id', async ({ id, patch }) => {
		const before = await errorsOf(document);
		const gone = told.filter(({ edit }) => edit === id).map((one) => one.told);
		expect(gone).not.toEqual([]);
		expect(await errorsOf(patched(document, patch))).toEqual(before.filter((one) => !gone.includes(one)));
	});

	it('has no error left after all the edits, and only what a person has to decide', async () => {
		expect(mends.length).toBeLessThanOrEqual(12);
		const { counts, findings } = await check(
			patched(
				document,
				mends.flatMap(({ patch }) => patch)
			)
		);
		expect(counts.error).toBe(0);
		const stays = told.filter(({ edit }) => edit === null).map((one) => one.told);
		expect(findings.map(toldAs).sort()).toEqual(stays.sort());
	});
});

describe('Ember Lane Kiln Yard', () => {
	it('has the findings that the README tells, and no other', async () => {
		const { findings } = (await ask('check', demoRollout(demoBytes('tutorial-kiln-yard.json')))) as CheckAnswer;
		expect(findings.map(toldAs).sort()).toEqual(
			toldFindings('Ember Lane Kiln Yard')
				.map((one) => one.told)
				.sort()
		);
	});
});
