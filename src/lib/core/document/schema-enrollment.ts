import { z } from 'zod';
import { amount, date, dateTime, entry, id, listOf, maybe, orElse, stretchText, whole, words, yesOrNo } from './fields';

/** Getting everyone enrolled: waves, capture classes, stations, walks, limits, bookings. */

export const wave = entry({
	id,
	name: maybe(words),
	enrollBy: maybe(date).describe('Last day for enrolling, inclusive'),
	goLive: maybe(date)
});

export const captureClass = entry({
	id,
	name: maybe(words),
	minutes: whole().describe('Station time of one person, in minutes')
});

export const opening = entry({ date, at: stretchText });

export const station = entry({
	id,
	name: maybe(words),
	area: id,
	lanes: orElse(whole(1), () => 1),
	turnoverMinutes: orElse(whole(), () => 0),
	serves: listOf(words).describe('Needs that can be met here'),
	open: listOf(opening)
});

export const walk = entry({
	between: z.tuple([id, id], { error: 'a list of two area ids' }),
	minutes: orElse(whole(), () => 0)
});

export const awayLimit = entry({ department: words, maxAway: maybe(whole()) });

export const booking = entry({
	person: id,
	station: id,
	lane: orElse(whole(1), () => 1),
	start: dateTime,
	minutes: whole(),
	fixed: orElse(yesOrNo, () => false).describe('Stays as it is, whatever is planned')
});

export const assumptions = entry({
	noShow: orElse(amount(0, 1), () => 0),
	repeatVisit: orElse(amount(0, 1), () => 0),
	failToEnroll: orElse(amount(0, 1), () => 0),
	minutesSpread: orElse(amount(), () => 0)
});

const noAssumptions = () => ({ noShow: 0, repeatVisit: 0, failToEnroll: 0, minutesSpread: 0 });

export const enrollment = entry({
	gridMinutes: orElse(whole(1, 1440), () => 5),
	waves: listOf(wave),
	captureClasses: listOf(captureClass),
	stations: listOf(station),
	walks: listOf(walk),
	awayLimits: listOf(awayLimit),
	bookings: listOf(booking),
	assumptions: orElse(assumptions, noAssumptions)
});

export type Wave = z.output<typeof wave>;
export type CaptureClass = z.output<typeof captureClass>;
export type Station = z.output<typeof station>;
export type Walk = z.output<typeof walk>;
export type AwayLimit = z.output<typeof awayLimit>;
export type Booking = z.output<typeof booking>;
export type Enrollment = z.output<typeof enrollment>;
