import type { z } from 'zod';
import { entry, exactly, date, maybe, orElse, text, whole, word, words } from './fields';
import { isTimeZone } from '../calendar/time-zone-name';
import { building } from './schema-building';
import { enrollment, type Enrollment } from './schema-enrollment';
import { privacy, type Privacy } from './schema-privacy';
import { whoLists } from './schema-who';
import { when } from './schema-when';

const noEnrollment = (): Enrollment => enrollment.parse({});
const noPrivacy = (): Privacy => privacy.parse({});

export const site = entry({
	name: word,
	timeZone: text('an IANA time zone, like America/Chicago', isTimeZone),
	country: maybe(text('an ISO 3166-1 alpha-2 code, like US', (value) => /^[A-Z]{2}$/.test(value))),
	region: maybe(text('the subdivision part of an ISO 3166-2 code, like IL', (value) => /^[A-Z0-9]{1,3}$/.test(value))),
	holidayArea: maybe(words).describe('What the public holiday source needs beyond country and region'),
	arriveEarlyMinutes: orElse(whole(), () => 0)
});

export const horizon = entry({ from: date, until: date });

/**
 * The rollout document, version 1: everything about bringing one site to go-live. The one source of truth for the
 * types, the JSON Schema and the reference page. `z.input` is the document as written, `z.output` the rollout with
 * every default filled in.
 */
export const rolloutSchema = entry({
	format: exactly('doorwright.rollout'),
	version: exactly(1),
	site,
	horizon: horizon.describe('Every check covers these dates, both included'),
	...building,
	...when,
	...whoLists,
	enrollment: orElse(enrollment, noEnrollment),
	privacy: orElse(privacy, noPrivacy)
});

/** A document as written: optional keys may be missing or null. */
export type RolloutDocument = z.input<typeof rolloutSchema>;

/** A document that was read: every default filled in, null for no limit. */
export type Rollout = z.output<typeof rolloutSchema>;

export type Site = z.output<typeof site>;

export type { Area, Controller, Door, DoorGroup, Reader } from './schema-building';
export type { Holiday, Schedule, Treatment } from './schema-when';
export type { Absence, AccessProfile, Assignment, Person, ShiftPattern, Who } from './schema-who';
export type {
	AwayLimit,
	Booking,
	CaptureClass,
	Costs,
	Enrollment,
	Stages,
	Station,
	Visit,
	Walk,
	Wave
} from './schema-enrollment';
export type {
	Consent,
	Erasure,
	ErasureOrder,
	Hold,
	Notice,
	Office,
	Privacy,
	Request,
	Template,
	TemplatePlace
} from './schema-privacy';
