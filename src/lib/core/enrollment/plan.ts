import { byCodeUnits } from '../kernel/compare';
import type { Rollout } from '../document/schema';
import { type Work, unwatched } from '../kernel/work';
import { Board, type Lane } from './board';
import { bookingsOf } from './board-bookings';
import { type FixedBookings, fixedBookings } from './fixed';
import { type Instance, instanceOf, isAmbiguous } from './instance';
import { judgeBookings } from './judge';
import { EnrollmentModel } from './model';
import { type Proofs, leastLeftOut, proveShortfalls } from './prove';
import { exactPlan } from './exact';
import { improve, waitingOn } from './improve';
import { boundSessions } from './session-bound';
import { ProofSpace } from './proof-space';
import { RemedySearch } from './remedies/find-remedies';
import { findTogether } from './remedies/find-together';
import { type Session, sessionsOf } from './sessions';
import { stationCutOf } from './station-cut';
import type { Shortfall, Together } from './shortfalls';
import { type PlannedBooking, timedBooking } from './validity';

/** Why somebody is not booked. */
export type UnbookedReason = 'declined' | 'no-common-time' | 'station-time' | 'away-limit' | 'unproven';

/** A plan for everybody who is still to be enrolled, and what is known about better ones. */
export interface EnrollmentPlan {
	/** Valid together by all eight rules; valid fixed bookings are among them. By start, then station and lane. */
	readonly bookings: readonly PlannedBooking[];
	readonly unbooked: readonly { readonly person: string; readonly reason: UnbookedReason }[];
	readonly sessions: readonly Session[];
	/** Proven: no plan books more people than `bookable`, and none that books as many has fewer sessions than `sessions`. */
	readonly bounds: { readonly bookable: number; readonly sessions: number };
	readonly shortfalls: readonly Shortfall[];
	/** What would book everybody of all shortfalls together, as far as there are remedies. */
	readonly together?: Together;
	/** True only where every one of the five goals is proven to be reached. */
	readonly optimal: boolean;
}

export interface PlanOptions {
	/** Seconds, by the clock of `work`, after which it stops improving. */
	readonly seconds: number;
	readonly seed: number;
}

/**
 * Plans the enrollment of everybody who is still to be enrolled. Never returns an invalid booking: the plan is judged once
 * more at the end by the rules themselves, and what they refuse is left out.
 */
export function planEnrollment(rollout: Rollout, options: PlanOptions, work: Work = unwatched): EnrollmentPlan {
	const model = new EnrollmentModel(rollout);
	const fixed = fixedBookings(model);
	const isOverAt = (seconds: number) => (): boolean => work.isCancelled() || work.secondsSpent() >= seconds;
	const isLate = isOverAt(shareForReading * options.seconds + 0.4);
	const instance = instanceOf(model, fixed, 'strict', isLate);
	const lenient = isAmbiguous(model, fixed) ? instanceOf(model, fixed, 'lenient', isLate) : instance;
	const space = new ProofSpace(lenient);
	const board = new Board(instance);
	const prepared = work.secondsSpent();
	const found = fill(board, space, options, work);
	const bookings = validOnly(model, [...fixed.valid.map(withoutFixed), ...bookingsOf(board)]);
	const plan = answerOf({ model, fixed, instance, space, found }, bookings, isOverAt(options.seconds));
	const hasClock = work.secondsSpent() > 0;
	// A remedy is tried by making a puzzle anew, which takes about as long as making the first one and cannot be cut short.
	const secondsLeft = (): number =>
		work.isCancelled() ? 0 : Math.max(0, options.seconds - prepared - work.secondsSpent());
	return { ...plan, ...withRemedies(rollout, plan, hasClock ? Infinity : mostWithoutClock, secondsLeft) };
}

/** True where it is clear from the beginning that some people will be left, so that time is kept for what would help them. */
function isShort(space: ProofSpace, isOver: () => boolean): boolean {
	return space.instance.kinds.some((_, kind) => !space.isUsable(kind)) || stationCutOf(space, isOver).unmetMinutes > 0;
}

/** Share of the time, beside a moment for starting, in which people are made ready: a plan of some is better than none. */
const shareForReading = 0.6;

/** Share of the time for planning where remedies will be needed. */
const shareForPlanning = 0.6;

/** Looks for remedies as long as there is time, the shortfalls of most people first; a person's first shortfall is enough. */
function withRemedies(
	rollout: Rollout,
	plan: EnrollmentPlan,
	most: number,
	secondsLeft: () => number
): Pick<EnrollmentPlan, 'shortfalls' | 'together'> {
	if (plan.shortfalls.length === 0) return { shortfalls: plan.shortfalls };
	const unbooked = new Set(plan.unbooked.flatMap(({ person, reason }) => (reason === 'declined' ? [] : [person])));
	const terms = { rollout, bookings: plan.bookings, unbooked };
	const search = new RemedySearch(terms);
	const forTogether = shareForTogether * secondsLeft();
	const found = new Map<Shortfall, Shortfall>();
	const byPeople = [...plan.shortfalls].sort((a, b) => b.people.length - a.people.length);
	for (const shortfall of byPeople.slice(0, most)) {
		// Part of what is left is for those after it; many of them are served by what was found before.
		const left = Math.min(most, byPeople.length) - found.size;
		const kept = forTogether + Math.max(0, 1 - Math.max(0.3, 1.5 / left)) * Math.max(0, secondsLeft() - forTogether);
		found.set(
			shortfall,
			search.mended(shortfall, () => secondsLeft() <= kept)
		);
	}
	const shortfalls = plan.shortfalls.map((shortfall) => found.get(shortfall) ?? shortfall);
	const mended = shortfalls.filter(({ remedies }) => remedies.length > 0);
	const isOver = (): boolean => secondsLeft() <= 0;
	const together = findTogether(terms, search, mended, isOver, () => secondsLeft() <= 0.4 * forTogether);
	return together ? { shortfalls, together } : { shortfalls };
}

/** Share of the time for remedies in which those of all shortfalls are put together. */
const shareForTogether = 0.3;

/** Shortfalls for which remedies are looked for where no clock says when to stop. */
const mostWithoutClock = 30;

/** What is known of the best plan beside the one found. */
interface Found {
	readonly fewestSessions: number;
	/** The most people to be booked; undefined where it was not reckoned exactly. */
	readonly mostBooked: number | undefined;
	readonly isBest: boolean;
}

/** Puts the best plan that it finds on the board: the exact one for a few people. */
function fill(board: Board, space: ProofSpace, options: PlanOptions, work: Work): Found {
	const isAll = board.instance.unread + space.instance.unread === 0;
	const isFew = isAll && board.instance.people.length <= fewPeople;
	const planning = isFew && isShort(space, () => work.isCancelled()) ? shareForPlanning : 1;
	const after = secondsAfter(board, options.seconds, work.secondsSpent());
	const seconds = Math.max(0, planning * options.seconds - after);
	const isOverAt = (share: number) => (): boolean => work.isCancelled() || work.secondsSpent() >= share * seconds;
	const isPlain = space.instance === board.instance;
	const exact = isAll
		? exactPlan(board, waitingOn(board), isOverAt(isPlain ? shareForExact : shareForExact / 2))
		: undefined;
	if (!exact) {
		const secondsIfShort = Math.min(seconds, Math.max(0, shareForPlanning * options.seconds - after));
		const secondsAtMost = options.seconds + secondsOver;
		const budget = { seed: options.seed, seconds, secondsIfShort, secondsAtMost };
		const { fewestSessions } = improve(board, space, budget, work);
		return { fewestSessions: isAll ? fewestSessions : 0, mostBooked: undefined, isBest: false };
	}
	const other = new Board(space.instance);
	const lenient = isPlain ? exact : exactPlan(other, waitingOn(other), isOverAt(shareForExact));
	const standing = board.sessionsUsed;
	for (const { person, lane, slot } of exact.bookings) {
		board.place(person, lane, (board.lanes[lane] as Lane).base + slot);
	}
	return {
		// The looser reading bounds sessions only where it does not book more.
		fewestSessions:
			lenient?.goal.booked === exact.goal.booked
				? Math.min(standing, other.sessionsUsed) + lenient.fewestSessions
				: boundSessions(space, board.booked, board.sessionsUsed, isOverAt(1)).fewest,
		mostBooked: lenient?.goal.booked,
		isBest: standing === other.sessionsUsed && JSON.stringify(lenient?.goal) === JSON.stringify(exact.goal)
	};
}

/** So many seconds over the time are taken, if need be, for having a plan at all. */
const secondsOver = 0.8;

/** So few people that the puzzle is asked at once whether all can be booked. */
const fewPeople = 300;

/** Share of the time in which the exact plan must be found; the rest is for a good one. */
const shareForExact = 0.75;

/**
 * Seconds of the budget that are kept for judging, proving and telling: by the number of people, and where the machine is slow by the
 * time that it took to make the puzzle.
 */
function secondsAfter({ instance }: Board, seconds: number, prepared: number): number {
	return Math.min(0.3 * seconds, Math.max(0.2 + instance.people.length * 6e-5, 0.6 * prepared));
}

function withoutFixed({ person, station, lane, start, minutes }: PlannedBooking): PlannedBooking {
	return { person, station, lane, start, minutes };
}

/** Leaves out what the rules refuse, until they refuse nothing; the planner is built so that this never happens. */
function validOnly(model: EnrollmentModel, bookings: readonly PlannedBooking[]): PlannedBooking[] {
	let kept = [...bookings];
	for (;;) {
		const judged = judgeBookings(model, kept);
		if (judged.every(({ problems }) => problems.length === 0)) return kept;
		kept = judged.flatMap(({ booking, problems }) => (problems.length === 0 ? [booking] : []));
	}
}

interface Known {
	readonly model: EnrollmentModel;
	readonly fixed: FixedBookings;
	readonly instance: Instance;
	/** The lenient reading, for proofs. */
	readonly space: ProofSpace;
	readonly found: Found;
}

function answerOf(
	{ model, fixed, instance, space, found }: Known,
	bookings: readonly PlannedBooking[],
	isOver: () => boolean
): EnrollmentPlan {
	const booked = new Set(bookings.map(({ person }) => person));
	const unbooked = model.rollout.people.filter(
		(person) => model.standings.get(person.id) !== 'enrolled' && !booked.has(person.id)
	);
	const open = unbooked.filter((person) => model.standings.get(person.id) === 'to-book').map(({ id }) => id);
	const openSet = new Set(open);
	const limits = new Set(
		space.instance.people.flatMap(({ id }, index) =>
			openSet.has(id) ? [space.instance.kinds[space.instance.kindOf[index] as number]?.limit ?? -1] : []
		)
	);
	const leftOut = open.length === 0 ? { withoutWindow: 0, withWindow: 0 } : leastLeftOut(space, limits, isOver);
	const { shortfalls, reasons } = open.length === 0 ? nobodyLeftOut : proveShortfalls(space, instance, openSet, isOver);
	const sessions = sessionsOf(model, bookings);
	const reasonFor = (id: string): UnbookedReason =>
		model.standings.get(id) === 'declined' ? 'declined' : (reasons.get(id) ?? 'unproven');
	return {
		bookings: sorted(model, bookings),
		unbooked: unbooked
			.map(({ id }) => ({ person: id, reason: reasonFor(id) }))
			.sort((a, b) => byCodeUnits(a.person, b.person)),
		sessions,
		bounds: {
			bookable:
				fixed.valid.length +
				Math.min(
					space.instance.people.length + space.instance.unread - leftOut.withoutWindow - leftOut.withWindow,
					found.mostBooked ?? Infinity
				),
			sessions: Math.min(found.fewestSessions, sessions.length)
		},
		shortfalls,
		optimal: found.isBest
	};
}

const nobodyLeftOut: Proofs = { shortfalls: [], reasons: new Map() };

function sorted(model: EnrollmentModel, bookings: readonly PlannedBooking[]): PlannedBooking[] {
	return bookings
		.map((booking) => ({ booking, from: timedBooking(model, booking)?.from ?? 0 }))
		.sort(
			(a, b) =>
				a.from - b.from ||
				byCodeUnits(a.booking.station, b.booking.station) ||
				a.booking.lane - b.booking.lane ||
				byCodeUnits(a.booking.person, b.booking.person)
		)
		.map(({ booking }) => booking);
}
