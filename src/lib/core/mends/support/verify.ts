import { checks } from '../../checks';
import type { CheckInput } from '../../checks/define-check';
import { type Checked, recheck } from '../../checks/support/recheck';
import type { Rollout } from '../../document/schema';
import type { Finding } from '../../kernel/finding';
import type { Candidate, NeededAccess } from '../define-mend';
import { applied } from './apply';
import { type Effects, changedPairs, effectsOf } from './effects';
import { modelOf, touchedBy } from './touched';

/** What comes of a change that clears a finding. */
export interface Verified {
	readonly candidate: Candidate;
	readonly effects: Effects;
	/** Errors and warnings that are there after the change and were not before. */
	readonly raised: readonly FindingTold[];
	/** Errors and warnings that are gone. */
	readonly cleared: readonly FindingTold[];
}

export type FindingTold = Pick<Finding, 'code' | 'severity' | 'message' | 'subject'>;

/** A state that was checked, with its errors and warnings by what identifies them. */
export interface CheckedState {
	readonly checked: Checked;
	readonly grave: ReadonlyMap<string, Finding>;
}

/** Checks a rollout by every check, quickly where a state that is nearly the same was checked before. */
export async function checkedState(rollout: Rollout, before: Checked | null): Promise<CheckedState> {
	const { findings, checked } = await recheck(before, rollout, checks);
	if (!checked) throw new Error('a check that nobody can cancel was cancelled');
	const grave = findings.filter(({ severity }) => severity !== 'note');
	return { checked, grave: new Map(grave.map((one) => [keyOfFinding(one), one])) };
}

/** What identifies a finding: its code and its subject. */
export function keyOfFinding({ code, subject }: Pick<Finding, 'code' | 'subject'>): string {
	return `${code} ${JSON.stringify(Object.entries(subject).sort(([a], [b]) => (a < b ? -1 : 1)))}`;
}

/**
 * Verifies candidates for one finding: makes each, checks the whole document again, and compares who may open what before and
 * after. People whom the change cannot concern are not compared.
 */
export class Verifier {
	readonly #input: CheckInput;
	readonly #before: CheckedState;
	readonly #finding: Pick<Finding, 'code' | 'subject'>;
	readonly #needed: readonly NeededAccess[];

	constructor(before: CheckedState, finding: Pick<Finding, 'code' | 'subject'>, needed: readonly NeededAccess[]) {
		this.#before = before;
		this.#input = before.checked.input;
		this.#finding = finding;
		this.#needed = needed;
	}

	/** What comes of a candidate; null when it cannot be made or the finding is still there. */
	async verify(candidate: Candidate): Promise<Verified | null> {
		const { rollout, access } = this.#input;
		const made = applied(rollout, candidate.edits);
		if (!made.ok) return null;
		const after = made.value;
		const { grave: old } = this.#before;
		const { grave: now } = await checkedState(after, this.#before.checked);
		if (now.has(keyOfFinding(this.#finding))) return null;
		const touched = touchedBy(rollout, after);
		const pairs = changedPairs(access, modelOf(after, touched, access), touched);
		const { person } = this.#finding.subject;
		return {
			candidate,
			effects: effectsOf(access, pairs, new Set(typeof person === 'string' ? [person] : []), this.#needed),
			raised: [...now].filter(([key]) => !old.has(key)).map(([, one]) => toldOf(one)),
			cleared: [...old].filter(([key]) => !now.has(key)).map(([, one]) => toldOf(one))
		};
	}
}

function toldOf({ code, severity, message, subject }: Finding): FindingTold {
	return { code, severity, message, subject };
}
