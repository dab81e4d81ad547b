import { z } from 'zod';
import {
	amount,
	date,
	dateTime,
	entry,
	id,
	listOf,
	maybe,
	oneOf,
	orElse,
	stretchText,
	whole,
	words,
	yesOrNo
} from './fields';

/** Getting everyone enrolled: waves, capture classes, stations, walks, limits, bookings. */

export const wave = entry({
	id,
	name: maybe(words),
	enrollBy: maybe(date).describe('Last day for enrolling, inclusive'),
	goLive: maybe(date)
});

/** What the station time of one person is made of; the class's `minutes` stay what plans go by. */
export const stages = entry({
	identityMinutes: orElse(amount(), () => 0).describe('Checking who it is'),
	noticeMinutes: orElse(amount(), () => 0).describe('Reading the notice, questions, consent'),
	fingers: orElse(whole(0, 10), () => 2),
	attempts: orElse(amount(1, 20), () => 1).describe('Attempts a finger, on average'),
	secondsPerAttempt: orElse(amount(), () => 0),
	doorTestMinutes: orElse(amount(), () => 0).describe('Trying it at a door')
});

export const captureClass = entry({
	id,
	name: maybe(words),
	minutes: whole().describe('Station time of one person, in minutes'),
	stages: maybe(stages)
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

/** What the person was told before their booking was moved, so that word of the new one can say what it replaces. */
export const toldOf = entry({
	station: words.describe('Id of the station at that time; it need not be there any more'),
	start: dateTime,
	on: date.describe('When the person was told')
});

export const booking = entry({
	person: id,
	station: id,
	lane: orElse(whole(1), () => 1),
	start: dateTime,
	minutes: whole(),
	fixed: orElse(yesOrNo, () => false).describe('Stays as it is, whatever is planned'),
	toldOn: maybe(date).describe('When the person was told of it'),
	toldOf: maybe(toldOf).describe('The appointment that the person was told of last, where it is another')
});

/** How a visit ended: enrolled, to come again, not enrollable, or nobody came. */
export const visitOutcomes = ['enrolled', 'repeat', 'failed', 'no-show'] as const;

export const visit = entry({
	person: id,
	station: maybe(id),
	on: date,
	minutes: maybe(amount()).describe('Time at the station that it really took'),
	outcome: oneOf(visitOutcomes)
});

export const assumptions = entry({
	noShow: orElse(amount(0, 1), () => 0),
	repeatVisit: orElse(amount(0, 1), () => 0),
	failToEnroll: orElse(amount(0, 1), () => 0),
	minutesSpread: orElse(amount(), () => 0)
});

const noAssumptions = () => ({ noShow: 0, repeatVisit: 0, failToEnroll: 0, minutesSpread: 0 });

/** What remedies are weighed by, in any one unit of money or effort; only the proportions matter. */
export const costs = entry({
	stationHour: orElse(amount(), () => 40).describe('An hour in which one lane of a station is open longer'),
	installerDay: orElse(amount(), () => 480).describe(
		'A day of the installer: setting up a lane, fitting a station for a need, staying a day longer'
	),
	personAwayHour: orElse(amount(), () => 30).describe('An hour for which one person more is away from the line'),
	movedBooking: orElse(amount(), () => 5).describe('A booking that is moved for the sake of somebody else')
});

const usualCosts = () => ({ stationHour: 40, installerDay: 480, personAwayHour: 30, movedBooking: 5 });

/** What stands on every invitation slip, and in calendars. */
export const invitation = entry({
	contact: maybe(words).describe('Whom people ask about their appointment, or tell that they cannot come'),
	email: maybe(words).describe('Address of the contact; calendars then ask for an answer'),
	phone: maybe(words),
	bring: maybe(words).describe('What people bring to their appointment, as one sentence')
});

export const enrollment = entry({
	gridMinutes: orElse(whole(1, 1440), () => 5),
	waves: listOf(wave),
	captureClasses: listOf(captureClass),
	stations: listOf(station),
	walks: listOf(walk),
	awayLimits: listOf(awayLimit),
	bookings: listOf(booking),
	visits: listOf(visit).describe('What became of appointments'),
	assumptions: orElse(assumptions, noAssumptions),
	costs: orElse(costs, usualCosts).describe('What remedies for people left unbooked are weighed by'),
	invitation: maybe(invitation).describe('What stands on every invitation slip')
});

export type Wave = z.output<typeof wave>;
export type CaptureClass = z.output<typeof captureClass>;
export type Station = z.output<typeof station>;
export type Walk = z.output<typeof walk>;
export type AwayLimit = z.output<typeof awayLimit>;
export type Booking = z.output<typeof booking>;
export type Stages = z.output<typeof stages>;
export type Visit = z.output<typeof visit>;
export type Costs = z.output<typeof costs>;
export type Enrollment = z.output<typeof enrollment>;
