import type { Candidate } from '../define-mend';
import type { Verified } from './verify';

/** Candidates whose edits are not those of an earlier one. */
export function withoutRepeats(candidates: readonly Candidate[]): Candidate[] {
	const seen = new Set<string>();
	return candidates.filter(({ edits }) => {
		const key = JSON.stringify(edits);
		if (edits.length === 0 || seen.has(key)) return false;
		seen.add(key);
		return true;
	});
}

/**
 * Mends in the order in which they should be looked at: changes of access before statements about the world; what raises
 * nothing new; what leaves the person no other uncovered shift; what opens least beyond the need and takes least away; what
 * clears most besides; fewest edits. Of two that do exactly the same to everybody, only the one with fewer edits stays; and
 * one that opens hundreds of times what is asked for is no mend where there is a smaller one.
 */
export function byFitness(verified: readonly Verified[], person: string | undefined): Verified[] {
	const measured = verified.map((one, place) => ({ one, measure: measureOf(one, place, person) }));
	measured.sort((a, b) => compareNumbers(a.measure, b.measure));
	const isSmaller = ({ effects }: Verified) => verified.some((one) => one.effects.beyondNeed < effects.beyondNeed);
	const seen = new Set<string>();
	return measured.flatMap(({ one }) => {
		const needed = neededBy(one);
		if (needed > 0 && one.effects.beyondNeed > mostTimes * needed && isSmaller(one)) return [];
		const key = JSON.stringify([one.candidate.isFact ?? false, one.effects.rows, one.cleared.length, one.raised]);
		const isTwin = one.candidate.isFact !== true && one.effects.rows.length > 0 && seen.has(key);
		seen.add(key);
		return isTwin ? [] : [one];
	});
}

const mostTimes = 500;

function neededBy({ effects }: Verified): number {
	return effects.subject.gained + effects.others.gained - effects.beyondNeed;
}

function measureOf({ candidate, effects, raised, cleared }: Verified, place: number, person?: string): number[] {
	const ownCleared = cleared.filter(({ subject }) => person !== undefined && subject['person'] === person).length;
	return [
		candidate.isFact === true ? 1 : 0,
		candidate.order ?? 0,
		raised.length,
		-ownCleared,
		effects.beyondNeed + effects.others.lost,
		-cleared.length,
		candidate.edits.length,
		place
	];
}

function compareNumbers(a: readonly number[], b: readonly number[]): number {
	for (const [place, value] of a.entries()) {
		const other = b[place] ?? 0;
		if (value !== other) return value - other;
	}
	return 0;
}
