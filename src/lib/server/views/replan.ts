import { problemText } from '$lib/components/enrollment/problem-text';
import { type LocalDateTime, isLocalDateTime, wallTimeOf } from '$lib/core/calendar/local-date-time';
import { stretch } from '$lib/core/calendar/stretch';
import { changeWords } from '$lib/core/answers/replan';
import { nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { type Disruption, remainingFrom } from '$lib/core/enrollment/replan/remaining';
import type { BookingChange, Replan } from '$lib/core/enrollment/replan/replan';
import { tellingOf } from '$lib/core/enrollment/told';
import type { PlannedBooking } from '$lib/core/enrollment/validity';
import type { OpenRollout } from '$lib/server/open-rollouts';

/** How many rows of a list are shown at once. */
const mostShown = 300;

/** A moment as somebody types it, with a blank or a `T`; undefined where it is none. */
export function momentIn(text: string | null): LocalDateTime | undefined {
	const written = (text ?? '').trim().replace(' ', 'T');
	return isLocalDateTime(written) ? written : undefined;
}

/** The clock on the wall of a site, to the minute. */
export function wallClockAt(timeZone: string, now = new Date()): LocalDateTime {
	const parts = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'short' }).format(now);
	return parts.replace(' ', 'T') as LocalDateTime;
}

/** What is known at a moment before anything is planned anew: what is over, what no longer holds, who waits. */
export function standingView(rollout: Rollout, from: LocalDateTime) {
	const { disruptions, before, repeated, unrecorded, standing } = remainingFrom(rollout, from);
	const over = new Map(rollout.enrollment.bookings.map((booking) => [booking.person, booking]));
	const rows = [...disruptions].map(([person, why]) => ({
		person,
		name: personName(rollout, person),
		kind: why.kind,
		why: whyText(why, rollout),
		before: placeText(rollout, before.get(person) ?? null)
	}));
	const broken = rows.filter(({ kind }) => kind !== 'new');
	const joiners = rows.filter(({ kind }) => kind === 'new');
	return {
		standing: standing.length,
		broken: broken.slice(0, mostShown),
		brokenInAll: broken.length,
		repeated: repeated.map((booking) => `${personName(rollout, booking.person)}, ${placeText(rollout, booking)}`),
		joiners: joiners.slice(0, 60).map(({ person, name }) => ({ person, name })),
		joinersInAll: joiners.length,
		unrecorded: unrecorded.slice(0, mostShown).map((person) => ({
			person,
			name: personName(rollout, person),
			before: placeText(rollout, over.get(person) ?? null)
		}))
	};
}

/** Bookings to come with who was told of what, those of one date and station where chosen. */
export function tellingView(rollout: Rollout, from: LocalDateTime, date: string | null, station: string | null) {
	const all = rollout.enrollment.bookings
		.filter(({ start }) => start >= from)
		.map((booking) => ({
			person: booking.person,
			name: personName(rollout, booking.person),
			station: booking.station,
			date: booking.start.slice(0, 10),
			start: booking.start,
			at: placeText(rollout, booking),
			isFixed: booking.fixed,
			telling: tellingOf(booking),
			toldOn: booking.toldOn,
			knows:
				booking.toldOf &&
				`${booking.toldOf.start.replace('T', ' ')} ${nameOf(rollout.enrollment.stations, booking.toldOf.station)}`
		}))
		.sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : 0));
	const rows = all.filter(
		(one) => (date === null || one.date === date) && (station === null || one.station === station)
	);
	const count = (telling: string) => all.filter((one) => one.telling === telling).length;
	return {
		rows: rows.slice(0, mostShown),
		whole: rows.length,
		dates: [...new Set(all.map((one) => one.date))],
		counts: {
			told: count('told'),
			anew: count('anew'),
			toTell: count('to-tell'),
			fixed: all.filter((one) => one.isFixed).length
		}
	};
}

/** A plan made anew as it is read before it is accepted. */
export function replanView(rollout: Rollout, found: Replan) {
	const plan = completed(found);
	const impossible = new Set(plan.impossible);
	const changes = plan.changes.map((change) => ({
		person: change.person,
		name: personName(rollout, change.person),
		group: groupOf(change),
		why: change.why.kind === 'no-longer-valid' ? whyText(change.why, rollout) : changeWords[change.why.kind],
		before: placeText(rollout, change.before),
		after:
			change.after === null
				? impossible.has(change.person)
					? 'Nowhere: from then on no start keeps to the open hours, the shift, the needs and the due date'
					: 'Nowhere: each start that would do is taken, and moving others helps nobody'
				: placeText(rollout, change.after),
		mustBeTold: change.mustBeTold
	}));
	const count = (group: ReturnType<typeof groupOf>) => changes.filter((one) => one.group === group).length;
	return {
		changes: changes.slice(0, mostShown),
		whole: changes.length,
		tellAnew: changes.filter(({ mustBeTold }) => mustBeTold).length,
		counts: {
			kept: plan.kept,
			moved: plan.moved,
			placed: count('placed'),
			booked: count('booked'),
			out: plan.unbooked.length
		},
		toldAnewForOthers: plan.toldAnew,
		cost: plan.cost,
		repeated: plan.repeated.length,
		days: daysOf(rollout, plan)
	};
}

/** Proposals that were kept before these lists were told have none. */
export function completed(plan: Replan): Replan {
	const told: Partial<Replan> = plan;
	return { ...plan, repeated: told.repeated ?? [], impossible: told.impossible ?? [] };
}

/** Moved for others; given another place; booked for the first time; left without. */
function groupOf({ before, after, why }: BookingChange): 'moved' | 'placed' | 'booked' | 'out' {
	if (after === null) return 'out';
	if (why.kind === 'made-room') return 'moved';
	return before === null ? 'booked' : 'placed';
}

export type ReplanView = ReturnType<typeof replanView>;

/** A strip for each station and date on which something changes: what was there, and what will be. */
function daysOf(rollout: Rollout, { bookings, changes }: Replan) {
	const old = changes.flatMap(({ before }) => (before ? [before] : []));
	const fresh = new Set(changes.flatMap(({ after }) => (after ? [after.person] : [])));
	const keyOf = ({ start, station }: PlannedBooking) => `${start.slice(0, 10)} ${station}`;
	const keys = new Set([...old, ...changes.flatMap(({ after }) => (after ? [after] : []))].map(keyOf));
	return [...keys]
		.sort()
		.slice(0, 40)
		.map((key) => {
			const [date, id] = [key.slice(0, 10), key.slice(11)];
			const here = (list: readonly PlannedBooking[]) => list.filter((one) => keyOf(one) === key);
			const open = rollout.enrollment.stations
				.filter((station) => station.id === id)
				.flatMap((station) => station.open.filter((one) => one.date === date).map(({ at }) => stretch(at)));
			const block = (mark: 'kept' | 'gone' | 'new') => (one: PlannedBooking) => ({
				key: `${mark} ${one.person}`,
				person: one.person,
				name: personName(rollout, one.person),
				from: wallTimeOf(one.start).minute,
				minutes: one.minutes,
				lane: one.lane,
				mark
			});
			const blocks = [
				...here(bookings.filter(({ person }) => !fresh.has(person))).map(block('kept')),
				...here(old).map(block('gone')),
				...here(bookings.filter(({ person }) => fresh.has(person))).map(block('new'))
			];
			const ends = [...open.map(({ to }) => to), ...blocks.map(({ from, minutes }) => from + minutes)];
			return {
				key,
				title: `${date}, ${nameOf(rollout.enrollment.stations, id)}`,
				from: Math.floor(Math.min(...open.map(({ from }) => from), ...blocks.map(({ from }) => from)) / 60) * 60,
				to: Math.ceil(Math.max(...ends) / 60) * 60,
				lanes: Math.max(1, ...blocks.map(({ lane }) => lane)),
				open,
				blocks
			};
		});
}

function whyText(why: Disruption, rollout: Rollout): string {
	if (why.kind !== 'no-longer-valid') return changeWords[why.kind];
	return why.problems.map((problem) => problemText(problem, rollout)).join(' ');
}

function placeText(rollout: Rollout, booking: PlannedBooking | null): string {
	if (booking === null) return '';
	const { stations } = rollout.enrollment;
	const lanes = stations.find(({ id }) => id === booking.station)?.lanes ?? 1;
	const lane = lanes > 1 || booking.lane > 1 ? `, lane ${booking.lane}` : '';
	return `${booking.start.replace('T', ' ')} ${nameOf(stations, booking.station)}${lane}`;
}

/** The edits that lock the bookings of some people in their places, or let them loose. */
export function lockEdits({ document }: Pick<OpenRollout, 'document'>, people: readonly string[], isFixed: boolean) {
	const wanted = new Set(people);
	return (document.enrollment?.bookings ?? []).flatMap((booking, at) => {
		if (!wanted.has(booking.person) || (booking.fixed ?? false) === isFixed) return [];
		const { fixed: _, ...rest } = booking;
		const entry = isFixed ? { ...rest, fixed: true } : rest;
		return [{ edit: 'put-entry', params: { collection: 'bookings', entry, at } }];
	});
}
