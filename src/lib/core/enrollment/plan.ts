import { byCodeUnits } from '../kernel/compare';
import type { Rollout } from '../document/schema';
import { type Work, unwatched } from '../kernel/work';
import { Board, type Lane } from './board';
import { type FixedBookings, fixedBookings } from './fixed';
import { type Instance, instanceOf, isAmbiguous } from './instance';
import { judgeBookings } from './judge';
import { slotName } from './lattice';
import { EnrollmentModel } from './model';
import { type Proofs, leastLeftOut, proveShortfalls } from './prove';
import { exactPlan } from './exact';
import { improve, waitingOn } from './improve';
import { boundSessions } from './session-bound';
import { ProofSpace } from './proof-space';
import { RemedySearch } from './remedies/find-remedies';
import { type Session, sessionsOf } from './sessions';
import { stationCutOf } from './station-cut';
import type { Shortfall } from './shortfalls';
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
	const instance = instanceOf(model, fixed, 'strict');
	const lenient = isAmbiguous(model, fixed) ? instanceOf(model, fixed, 'lenient') : instance;
	const space = new ProofSpace(lenient);
	const board = new Board(instance);
	const prepared = work.secondsSpent();
	const isOverAt = (seconds: number) => (): boolean => work.isCancelled() || work.secondsSpent() >= seconds;
	const planning = isShort(space, isOverAt(options.seconds)) ? shareForPlanning : 1;
	const found = fill(board, space, { ...options, seconds: planning * options.seconds }, work);
	const bookings = validOnly(model, [...fixed.valid.map(withoutFixed), ...bookingsOf(board)]);
	const plan = answerOf({ model, fixed, instance, space, found }, bookings, isOverAt(options.seconds));
	const hasClock = work.secondsSpent() > 0;
	// A remedy is tried by making a puzzle anew, which takes about as long as making the first one and cannot be cut short.
	const secondsLeft = (): number =>
		work.isCancelled() ? 0 : Math.max(0, options.seconds - prepared - work.secondsSpent());
	return { ...plan, shortfalls: withRemedies(rollout, plan, hasClock ? Infinity : mostWithoutClock, secondsLeft) };
}

/** True where it is clear from the beginning that some people will be left, so that time is kept for what would help them. */
function isShort(space: ProofSpace, isOver: () => boolean): boolean {
	return space.instance.kinds.some((_, kind) => !space.isUsable(kind)) || stationCutOf(space, isOver).unmetMinutes > 0;
}

/** Share of the time for planning where remedies will be needed. */
const shareForPlanning = 0.6;

/** Looks for remedies as long as there is time, the shortfalls of most people first; a person's first shortfall is enough. */
function withRemedies(
	rollout: Rollout,
	plan: EnrollmentPlan,
	most: number,
	secondsLeft: () => number
): readonly Shortfall[] {
	if (plan.shortfalls.length === 0) return plan.shortfalls;
	const unbooked = new Set(plan.unbooked.map(({ person }) => person));
	const search = new RemedySearch({ rollout, bookings: plan.bookings, unbooked });
	const found = new Map<Shortfall, Shortfall>();
	const byPeople = [...plan.shortfalls].sort((a, b) => b.people.length - a.people.length);
	for (const shortfall of byPeople.slice(0, most)) {
		// Part of what is left is for those after it; many of them are served by what was found before.
		const kept = 0.4 * secondsLeft();
		found.set(
			shortfall,
			search.mended(shortfall, () => secondsLeft() <= kept)
		);
	}
	return plan.shortfalls.map((shortfall) => found.get(shortfall) ?? shortfall);
}

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
	const seconds = Math.max(0, options.seconds - secondsAfter(board, options.seconds, work.secondsSpent()));
	const isOverAt = (share: number) => (): boolean => work.isCancelled() || work.secondsSpent() >= share * seconds;
	const isPlain = space.instance === board.instance;
	const exact = exactPlan(board, waitingOn(board), isOverAt(isPlain ? shareForExact : shareForExact / 2));
	if (!exact) return { ...improve(board, space, { ...options, seconds }, work), mostBooked: undefined, isBest: false };
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

/** The bookings that a board holds, those that stand left out. */
export function bookingsOf(board: Board): PlannedBooking[] {
	return board.instance.people.flatMap((person, index) => {
		const laneIndex = board.laneOf[index] as number;
		if (laneIndex < 0) return [];
		const lane = board.lanes[laneIndex] as Lane;
		const lattice = board.instance.lattices[lane.station] as Instance['lattices'][number];
		const start = slotName(lattice, (board.cellOf[index] as number) - lane.base);
		const { minutes } = board.kindOf(index);
		return [{ person: person.id, station: lattice.ready.station.id, lane: lane.number, start, minutes }];
	});
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
					space.instance.people.length - leftOut.withoutWindow - leftOut.withWindow,
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
