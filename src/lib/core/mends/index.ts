import type { Checked } from '../checks/support/recheck';
import type { Rollout } from '../document/schema';
import type { Finding } from '../kernel/finding';
import { registryOf } from '../kernel/registry';
import { type Work, unwatched } from '../kernel/work';
import type { EditCall, MendDefinition } from './define-mend';
import type { Effects } from './support/effects';
import { byFitness, withoutRepeats } from './support/rank';
import { type FindingTold, type Verified, Verifier, checkedState, keyOfFinding } from './support/verify';

/** Ways to mend, by the code of the findings that they clear. */
export const mends: ReadonlyMap<string, MendDefinition> = registryOf(
	import.meta.glob<{ default: MendDefinition }>(['./*.ts', '!./*.test.ts', '!./index.ts', '!./define-mend.ts'], {
		eager: true
	}),
	(mend) => mend.code
);

/** A change that clears a finding, proven by making it and checking again. */
export interface Mend {
	/** Names it among the mends of its finding, in this state of the document. */
	readonly id: string;
	/** What is done, as a sentence without a stop. */
	readonly does: string;
	/** True where it says something about the world and not who may open what; it is right only if it is so. */
	readonly isFact: boolean;
	readonly notes: readonly string[];
	/** The edits that make it, for the edit `all-of`. */
	readonly edits: readonly EditCall[];
	readonly effects: Effects;
	/** Errors and warnings that come with it. */
	readonly raises: readonly FindingTold[];
	/** What else it clears. */
	readonly alsoClears: readonly FindingTold[];
}

/** The mends of a finding, the smallest first. */
export interface Mends {
	/** Null where there is no such finding. */
	readonly finding: Finding | null;
	readonly mends: readonly Mend[];
	/** How many changes were tried, and how many of them clear the finding. */
	readonly tried: number;
	readonly clearing: number;
	/** Why there is none, where there is none. */
	readonly whyNone: string | null;
}

/**
 * Every way to clear the finding of a code and subject, proven, the smallest first, at most `limit`. `known`: this or an earlier
 * state of the rollout as it was checked, where there is one; it makes no difference to the answer.
 */
export async function findMends(
	rollout: Rollout,
	code: string,
	subject: Readonly<Record<string, string>>,
	limit: number,
	work: Work = unwatched,
	known: Checked | null = null
): Promise<Mends> {
	const definition = mends.get(code);
	const before = await checkedState(rollout, known);
	const finding = before.grave.get(keyOfFinding({ code, subject }));
	if (!definition || !finding) return { finding: null, mends: [], tried: 0, clearing: 0, whyNone: null };
	const { candidates, needed, whyNone } = definition.propose({ ...before.checked.input, subject });
	const verifier = new Verifier(before, finding, needed);
	const verified: Verified[] = [];
	const tried = withoutRepeats(candidates);
	for (const [place, candidate] of tried.entries()) {
		if (work.isCancelled()) break;
		const one = await verifier.verify(candidate);
		if (one) verified.push(one);
		work.report(place + 1, tried.length, 'Trying changes');
	}
	const ranked = byFitness(verified, subject['person']);
	return {
		finding,
		mends: withIds(ranked.slice(0, limit)).map(([id, one]) => mendOf(id, one, keyOfFinding(finding))),
		tried: tried.length,
		clearing: verified.length,
		whyNone: ranked.length > 0 ? null : (whyNone ?? 'None of the changes tried clears it by itself.')
	};
}

function withIds(ranked: readonly Verified[]): (readonly [string, Verified])[] {
	const counts = new Map<string, number>();
	return ranked.map((one) => {
		const { way } = one.candidate;
		const count = (counts.get(way) ?? 0) + 1;
		counts.set(way, count);
		return [count === 1 ? way : `${way}-${count}`, one] as const;
	});
}

function mendOf(id: string, { candidate, effects, raised, cleared }: Verified, own: string): Mend {
	return {
		id,
		does: candidate.does,
		isFact: candidate.isFact ?? false,
		notes: candidate.notes ?? [],
		edits: candidate.edits,
		effects,
		raises: raised,
		alsoClears: cleared.filter((one) => keyOfFinding(one) !== own)
	};
}
