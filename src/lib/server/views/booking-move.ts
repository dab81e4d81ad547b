import { problemText } from '$lib/components/enrollment/problem-text';
import { fieldOf } from '$lib/core/document/walk';
import { judgeMove } from '$lib/core/enrollment/judge';
import { type Tellable, withTelling } from '$lib/core/enrollment/told';
import type { PlannedBooking } from '$lib/core/enrollment/validity';
import { isLocalDateTime } from '$lib/core/calendar/local-date-time';
import { fault } from '$lib/core/kernel/fault';
import type { OpenRollout } from '$lib/server/open-rollouts';
import { type Outcome, refuse } from '$lib/server/outcome';
import { enrollmentModelOf } from './enrollment-model';

/** Where a person is to be put. */
export interface MoveAsked {
	readonly person: string;
	readonly station: string;
	readonly lane: number;
	/** Local date and time. */
	readonly start: string;
}

/** What `put-entry` takes to change a booking. */
export interface PutBooking {
	readonly collection: 'bookings';
	readonly entry: object;
	readonly at: number | null;
}

/**
 * The change that puts a person's booking somewhere, or gives them one; refused with every rule that it would break, judged
 * against the rollout as it is now and not as it was when somebody picked the booking up.
 */
export function moveOf({ rollout, document }: OpenRollout, asked: MoveAsked): Outcome<PutBooking> {
	const model = enrollmentModelOf(rollout);
	const person = model.peopleById.get(asked.person);
	if (!person) return refuse('not-found', fault(['entry', 'person'], asked.person, 'the id of a person'));
	if (!isLocalDateTime(asked.start)) {
		return refuse('invalid', fault(['entry', 'start'], asked.start, 'a local date and time, like 2027-01-11T08:00'));
	}
	const { person: id, station, lane, start } = asked;
	const moved: PlannedBooking = {
		person: id,
		station,
		lane,
		start: asked.start,
		minutes: model.minutesOf(person) ?? 0
	};
	const problems = judgeMove(model, rollout.enrollment.bookings, moved);
	if (problems.length > 0) {
		const texts = problems.map((problem) => problemText(problem, rollout)).join(' ');
		return refuse('conflict', fault(['entry', 'start'], start, `a place that keeps every rule: ${texts}`));
	}
	const { at, before } = bookingOf(document, id);
	return {
		ok: true,
		value: {
			collection: 'bookings',
			entry: withTelling(at === null ? undefined : (before as Tellable), {
				...before,
				person: id,
				station,
				lane,
				start: asked.start,
				minutes: moved.minutes
			}),
			at
		}
	};
}

/** A booking as a form gives it, with what its person was told: of this appointment still, or of the one that it replaces. */
export function formBooking<B extends { readonly station: string; readonly start: string; readonly person: string }>(
	before: unknown,
	place: B
) {
	const isSamePerson = fieldOf(before, 'person') === place.person;
	const told = withTelling(isSamePerson ? (before as Tellable) : undefined, place as unknown as Tellable);
	return { ...place, toldOn: told.toldOn ?? null, toldOf: told.toldOf ?? null };
}

/** The change that locks the booking of a person in its place, or lets it loose. */
export function lockOf({ document }: OpenRollout, person: string, isFixed: boolean): Outcome<PutBooking> {
	const { at, before } = bookingOf(document, person);
	if (at === null) return refuse('not-found', fault(['entry', 'person'], person, 'somebody who is booked'));
	const { fixed: _, ...rest } = before as { fixed?: unknown };
	return { ok: true, value: { collection: 'bookings', entry: isFixed ? { ...rest, fixed: true } : rest, at } };
}

function bookingOf(document: OpenRollout['document'], person: string): { at: number | null; before: object } {
	const bookings = document.enrollment?.bookings ?? [];
	const at = bookings.findIndex((booking) => fieldOf(booking, 'person') === person);
	return at < 0 ? { at: null, before: {} } : { at, before: bookings[at] ?? {} };
}
