import { compareAccess } from '../../access/compare';
import type { LocalDate } from '../../calendar/local-date';
import type { ReadDocument } from '../../document/read';
import type { Booking, Rollout } from '../../document/schema';
import { applyEdit } from '../../edits';
import { judgeBookings } from '../../enrollment/judge';
import { standingByPerson } from '../../enrollment/standing';
import { groupBy } from '../../kernel/group-by';
import { type Result, ok } from '../../kernel/result';
import { consentStates } from '../../privacy/consent-state';
import { retentionOn } from '../../privacy/retention';
import type { RosterAnswer } from '../../roster/roster-answer';
import { takingOver } from '../../roster/taking-over';

/** What follows for one person when a roster is taken over. */
export interface RosterConsequence {
	readonly person: string;
	readonly name: string;
	readonly why: 'joined' | 'moved' | 'left';
	/** Doors with time gained or lost in the horizon. */
	readonly gains: readonly string[];
	readonly loses: readonly string[];
	/** Their booking, where it was valid and no longer is. */
	readonly freed: Booking | null;
	/** True where they are to be enrolled and have no booking that holds. */
	readonly needsBooking: boolean;
	/** By when their template must be erased, where that comes to be known, or comes sooner. */
	readonly eraseBy: LocalDate | null;
	/** True where nobody wrote down yet what they decided. */
	readonly needsConsent: boolean;
}

/** So many people are followed up: beyond that the figures of a comparison serve, and this would take too long. */
export const mostFollowed = 2000;

/**
 * What follows from taking a roster over, person by person, in the order joined, moved, left: nothing is changed. Those
 * who left are looked at as if `leavesOn` were entered as their last day. Only people for whom something follows. Refuses
 * what the edit refuses. Of more than `mostFollowed` people the first are followed.
 */
export function rosterConsequences(
	before: ReadDocument,
	answer: RosterAnswer,
	leavesOn: LocalDate,
	on: LocalDate
): Result<readonly RosterConsequence[]> {
	const { joined, moved, left } = answer.changes;
	const starts = new Map(before.rollout.people.map(({ id, startsOn }) => [id, startsOn]));
	const ends = left.filter((id) => (starts.get(id) ?? leavesOn) <= leavesOn);
	const all: (readonly [string, RosterConsequence['why']])[] = [
		...joined.map((id) => [id, 'joined'] as const),
		...moved.map(({ person }) => [person, 'moved'] as const),
		...ends.map((id) => [id, 'left'] as const)
	];
	const followed = all.slice(0, mostFollowed);
	const only = new Set(followed.map(([id]) => id));
	const change = applyEdit(before, 'apply-roster', takingOver(answer, { leavesOn, only }));
	if (!change.ok) return change;
	const after = change.value.rollout;

	// Nobody's access hangs on other people, so that only those concerned need be compared.
	const among = (rollout: Rollout): Rollout => ({
		...rollout,
		people: rollout.people.filter(({ id }) => only.has(id))
	});
	const access = groupBy(compareAccess(among(before.rollout), among(after)), ({ person }) => person);
	const bookings = bookingsOf(before.rollout, after);
	const standing = standingByPerson(after);
	const names = new Map(after.people.map(({ id, name }) => [id, name ?? id]));
	const consent = consentStates(after.privacy.consents, on);
	const erase = soonerErasure(before.rollout, after, on);
	return ok(
		followed
			.map(([person, why]): RosterConsequence => {
				const isHere = why !== 'left';
				const freed = bookings.freed.get(person) ?? null;
				return {
					person,
					name: names.get(person) ?? person,
					why,
					gains: (access.get(person) ?? []).filter(({ gained }) => gained > 0).map(({ door }) => door),
					loses: (access.get(person) ?? []).filter(({ lost }) => lost > 0).map(({ door }) => door),
					freed,
					needsBooking:
						isHere &&
						(why === 'joined' || freed !== null) &&
						standing.get(person) === 'to-book' &&
						!bookings.holding.has(person),
					eraseBy: erase.get(person) ?? null,
					needsConsent: why === 'joined' && !consent.has(person)
				};
			})
			.filter(
				({ gains, loses, freed, needsBooking, eraseBy, needsConsent }) =>
					gains.length + loses.length > 0 || freed !== null || needsBooking || eraseBy !== null || needsConsent
			)
	);
}

function bookingsOf(before: Rollout, after: Rollout): { freed: Map<string, Booking>; holding: Set<string> } {
	const { bookings } = before.enrollment;
	const wasValid = judgeBookings(before, bookings).map(({ problems }) => problems.length === 0);
	const freed = new Map<string, Booking>();
	const holding = new Set<string>();
	for (const [index, { problems }] of judgeBookings(after, bookings).entries()) {
		const booking = bookings[index];
		if (booking === undefined) continue;
		if (problems.length === 0) holding.add(booking.person);
		else if (wasValid[index]) freed.set(booking.person, booking);
	}
	return { freed, holding };
}

/** The earliest date by which a template of each person must be erased, where it was later or unknown before. */
function soonerErasure(before: Rollout, after: Rollout, on: LocalDate): ReadonlyMap<string, LocalDate> {
	const was = retentionOn(before, on).templates;
	const sooner = new Map<string, LocalDate>();
	for (const [index, { person, state, eraseBy }] of retentionOn(after, on).templates.entries()) {
		const earlier = was[index]?.eraseBy ?? null;
		if (eraseBy === null || state === 'erased' || (earlier !== null && earlier <= eraseBy)) continue;
		const known = sooner.get(person);
		if (known === undefined || eraseBy < known) sooner.set(person, eraseBy);
	}
	return sooner;
}
