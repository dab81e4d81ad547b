import fc from 'fast-check';
import { type PlainAssignment, type PlainDocument, type PlainSchedule, all } from '../oracles/plain-rollout';
import { plusDays } from '../oracles/timeline';

/**
 * Random small rollouts that lie around clock changes, and are rich in what is easily got wrong: nights, holidays that
 * cut them, undecided kinds, limits of validity, odd cycles, doors that ask for a credential to leave.
 */

/** Zones and dates on which their clocks change, each in another way. */
const placesInTime = [
	['America/Chicago', '2027-03-14'],
	['America/Chicago', '2027-11-07'],
	['America/Chicago', '2027-12-31'], // nothing changes but the year
	['Europe/London', '2027-03-28'],
	['Europe/London', '2027-10-31'],
	['Australia/Lord_Howe', '2027-04-04'], // by half an hour
	['Australia/Lord_Howe', '2027-10-03'],
	['America/Havana', '2024-03-10'], // 00:00 to 01:00
	['America/Havana', '2024-11-03'], // 01:00 to 00:00
	['Africa/Cairo', '2025-04-25'],
	['Africa/Cairo', '2025-10-30'], // 24:00 to 23:00
	['Asia/Beirut', '2025-03-30'],
	['Asia/Beirut', '2025-10-25'],
	['America/Asuncion', '2023-10-01'],
	['America/Asuncion', '2024-03-23'],
	['America/Santiago', '2025-04-05'],
	['America/Santiago', '2025-09-07'],
	['Pacific/Apia', '2011-12-30'], // a date that is left out
	['Pacific/Kwajalein', '1993-08-21'], // another
	['America/St_Johns', '2010-03-14'], // 00:01 to 01:01
	['America/St_Johns', '2010-11-07'], // 00:01 to 23:01 of the date before
	['Africa/Casablanca', '2025-02-23'],
	['Africa/Casablanca', '2025-04-06'],
	['America/Nuuk', '2023-03-25'], // 22:00 to 23:00
	['America/Nuuk', '2024-03-31'], // 23:00 to 24:00
	['America/Nuuk', '2024-10-26'], // 24:00 to 23:00
	['Antarctica/Troll', '2025-03-30'], // by two hours
	['Antarctica/Troll', '2025-10-26'],
	['Asia/Pyongyang', '2018-05-05'], // 23:30 to 24:00
	['America/Caracas', '2016-05-01'], // by half an hour, for good
	['Asia/Kathmandu', '1986-01-01'], // by a quarter of an hour, for good
	['Europe/Dublin', '2027-03-28'], // summer is the standard time there
	['America/Sao_Paulo', '2008-10-19'], // 00:00 to 01:00
	['America/Sao_Paulo', '2009-02-15'], // 24:00 to 23:00
	['Asia/Gaza', '2011-08-01'],
	['Asia/Tehran', '2021-09-22'],
	['Pacific/Kiritimati', '1994-12-31'], // a third date that is left out
	['Pacific/Fakaofo', '2011-12-30'],
	['America/Goose_Bay', '2006-10-29'], // as St. John's
	['America/Scoresbysund', '2025-03-30'], // 23:00 to 24:00
	['Antarctica/Casey', '2010-03-05'], // 02:00 to 23:00 of the date before
	['Antarctica/Vostok', '1994-02-01'], // 24:00 to 17:00
	['Asia/Dhaka', '2009-06-19'], // 23:00 to 24:00
	['Asia/Singapore', '1981-12-31'], // 23:30 to 24:00
	['Pacific/Chatham', '2027-09-26'],
	['Africa/Casablanca', '2079-08-06'],
	['America/Chicago', '2079-11-05'],
	['Asia/Kolkata', '1975-06-30'] // nothing changes
] as const;

// Free words may be what an object has of itself.
const kinds = ['public', 'shutdown', 'toString'] as const;
const departments = ['Packing', 'constructor'] as const;
const jobs = ['Operator', 'Driver'] as const;
const days = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

const clockTimes = [
	...['00:00', '00:01', '00:30', '01:00', '01:30', '01:45', '02:00', '02:15', '02:30', '03:00', '05:45', '06:00'],
	...['08:00', '12:00', '14:00', '18:00', '21:00', '22:00', '22:30', '23:00', '23:01', '23:30', '23:45', '23:59']
];

const anyMinute = fc
	.integer({ min: 0, max: 1439 })
	.map((minute) => [Math.floor(minute / 60), minute % 60].map((part) => String(part).padStart(2, '0')).join(':'));

const clockTime = fc.oneof(
	{ weight: 4, arbitrary: fc.constantFrom(...clockTimes) },
	{ weight: 1, arbitrary: anyMinute }
);

const stretch = fc.oneof(
	{ weight: 4, arbitrary: fc.constantFrom('00:00-24:00', '22:00-06:00', '06:00-14:00', '14:00-22:00', '07:00-19:00') },
	{
		weight: 6,
		arbitrary: fc
			.tuple(clockTime, fc.oneof({ weight: 9, arbitrary: clockTime }, { weight: 1, arbitrary: fc.constant('24:00') }))
			.map(([from, to]) => `${from}-${to}`)
	},
	// 24 hours from any time on.
	{ weight: 1, arbitrary: clockTime.map((time) => `${time}-${time}`) }
);

const dayList = fc.oneof(
	{ weight: 2, arbitrary: fc.constant(['00:00-24:00']) },
	{ weight: 1, arbitrary: fc.constant([]) },
	{ weight: 4, arbitrary: fc.array(stretch, { minLength: 1, maxLength: 3 }) }
);

/** The same on every day as a rule: what holds on one is then carried into the next. */
const week: fc.Arbitrary<PlainSchedule['week']> = fc.oneof(
	dayList.map((list) => Object.fromEntries(days.map((day) => [day, list]))),
	fc.record(Object.fromEntries(days.map((day) => [day, dayList])), { requiredKeys: [] })
);

const treatment = fc.oneof(
	fc.constantFrom('normal' as const, 'closed' as const),
	fc.array(stretch, { maxLength: 2 }),
	fc.constant(null)
);

/** A limit that is mostly left out. */
function sometimes<T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | null> {
	return fc.oneof({ weight: 5, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: value });
}

/** Any printable characters make an id; these are such as keys are easily muddled with. */
const idEnds = ['', ',1', '|2', '"3', '\\', ' 5'];

function idsOf(prefix: string, count: number): string[] {
	return idEnds.slice(0, count).map((end) => prefix + end);
}

/** In another order by code units than by locale, by number or by code points. */
const doorIds = ['b', 'B', '10', '9', '\ufb00', '\u{1f6aa}'];

/** Two dates in order, either of which may be missing. */
function limits<From extends string, Until extends string>(
	date: fc.Arbitrary<string>,
	from: From,
	until: Until
): fc.Arbitrary<Record<From | Until, string | null>> {
	return fc.tuple(sometimes(date), sometimes(date)).map(([one, other]) => {
		const [first, last] = one !== null && other !== null && one > other ? [other, one] : [one, other];
		return { [from]: first, [until]: last } as Record<From | Until, string | null>;
	});
}

interface Counts {
	readonly areas: number;
	readonly doors: number;
	readonly doorGroups: number;
	readonly controllers: number;
	readonly schedules: number;
	readonly people: number;
	readonly patterns: number;
	readonly waves: number;
	readonly profiles: number;
	readonly assignments: number;
}

const counts: fc.Arbitrary<Counts> = fc.record({
	areas: fc.integer({ min: 2, max: 5 }),
	doors: fc.integer({ min: 1, max: 6 }),
	doorGroups: fc.integer({ min: 1, max: 3 }),
	controllers: fc.integer({ min: 0, max: 2 }),
	schedules: fc.integer({ min: 1, max: 4 }),
	people: fc.integer({ min: 1, max: 4 }),
	patterns: fc.integer({ min: 1, max: 2 }),
	waves: fc.integer({ min: 0, max: 2 }),
	profiles: fc.integer({ min: 1, max: 3 }),
	assignments: fc.oneof({ weight: 9, arbitrary: fc.integer({ min: 1, max: 4 }) }, fc.constant(0))
});

/** A small rollout whose horizon of at most `longest` days lies at a clock change, before it or after it. */
export function smallRollouts(longest = 12): fc.Arbitrary<PlainDocument> {
	return fc
		.tuple(
			fc.constantFrom(...placesInTime),
			fc.integer({ min: -longest, max: 2 }),
			fc.integer({ min: 1, max: longest }),
			counts
		)
		.chain(([[timeZone, change], before, length, count]) => {
			const from = plusDays(change, before);
			return rolloutOf(timeZone, change, { from, until: plusDays(from, length - 1) }, count);
		})
		.chain(inAnyForm);
}

/** The same document in another form: order has no meaning, and null means what leaving out means. */
function inAnyForm(document: PlainDocument): fc.Arbitrary<PlainDocument> {
	const inAnyOrder = <T>(list: readonly T[] | null | undefined): fc.Arbitrary<T[]> => {
		const entries = [...all(list)];
		return fc.shuffledSubarray(entries, { minLength: entries.length });
	};
	return fc
		.record({
			areas: inAnyOrder(document.areas),
			doors: inAnyOrder(document.doors),
			schedules: inAnyOrder(document.schedules),
			people: inAnyOrder(document.people),
			assignments: inAnyOrder(document.assignments),
			isTerse: fc.boolean()
		})
		.map(({ isTerse, ...lists }) => {
			const other = { ...document, ...lists };
			if (!isTerse) return other;
			return JSON.parse(JSON.stringify(other, (_key, value: unknown) => value ?? undefined)) as PlainDocument;
		});
}

function rolloutOf(
	timeZone: string,
	change: string,
	horizon: PlainDocument['horizon'],
	count: Counts
): fc.Arbitrary<PlainDocument> {
	const date = fc.oneof(
		fc.integer({ min: -2, max: 2 }).map((days) => plusDays(change, days)),
		fc.integer({ min: -14, max: 14 }).map((days) => plusDays(change, days))
	);
	const areas = idsOf('area', count.areas);
	const doors = doorIds.slice(0, count.doors);
	const doorGroups = idsOf('group', count.doorGroups);
	const controllers = idsOf('controller', count.controllers);
	const schedules = idsOf('schedule', count.schedules);
	const people = idsOf('person', count.people);
	const patterns = idsOf('pattern', count.patterns);
	const waves = idsOf('wave', count.waves);
	const profiles = idsOf('profile', count.profiles);
	const oneOf = (ids: readonly string[]): fc.Arbitrary<string> => fc.constantFrom(...ids);
	const maybeOneOf = (ids: readonly string[]): fc.Arbitrary<string | null> =>
		ids.length === 0 ? fc.constant(null) : fc.option(oneOf(ids), { freq: 3 });
	const each = <T>(ids: readonly string[], entry: fc.Arbitrary<T>): fc.Arbitrary<(T & { id: string })[]> =>
		fc.tuple(...ids.map((id) => entry.map((fields) => ({ id, ...fields }))));

	const profileEntry = fc.record({ doorGroup: oneOf(doorGroups), schedule: oneOf(schedules) });

	return fc.record({
		format: fc.constant('doorwright.rollout' as const),
		version: fc.constant(1 as const),
		site: fc.record({
			name: fc.constant('Any site'),
			timeZone: fc.constant(timeZone),
			// Longer than a day as well: nothing forbids it.
			arriveEarlyMinutes: fc.constantFrom(0, 0, 0, 1, 15, 90, null, 1500)
		}),
		horizon: fc.constant(horizon),
		areas: fc
			.array(fc.integer({ min: 0, max: 9 }), { minLength: areas.length, maxLength: areas.length })
			.map((dice) => areas.map((id, index) => ({ id, outside: index === 0 ? dice[0] !== 9 : dice[index] === 9 }))),
		doors: fc.tuple(
			...doors.map((id, index) =>
				fc.record({
					id: fc.constant(id),
					// A way further in as a rule, so that there is something to reach; anywhere at all as well.
					from: fc.oneof({ weight: 2, arbitrary: fc.constant(areas[index % areas.length] ?? '') }, oneOf(areas)),
					to: fc.oneof({ weight: 2, arbitrary: fc.constant(areas[(index + 1) % areas.length] ?? '') }, oneOf(areas)),
					exit: fc.constantFrom('free' as const, 'free' as const, 'reader' as const, null),
					identify: fc.constantFrom('finger' as const, 'finger-and-pin' as const, 'card' as const, null),
					controller: maybeOneOf(controllers)
				})
			)
		),
		doorGroups: each(
			doorGroups,
			fc.record({
				doors: fc.oneof({ weight: 2, arbitrary: fc.constant([...doors]) }, { weight: 3, arbitrary: fc.subarray(doors) })
			})
		),
		controllers: each(
			controllers,
			fc.record({
				maxDoors: sometimes(fc.integer({ min: 0, max: 3 })),
				maxTemplates: sometimes(fc.integer({ min: 0, max: 2 })),
				maxSchedules: sometimes(fc.integer({ min: 0, max: 2 })),
				maxHolidays: sometimes(fc.integer({ min: 0, max: 2 })),
				supplyMilliamps: sometimes(fc.constantFrom(0, 449.5, 450, 900))
			})
		),
		readers: fc
			.array(
				fc.record({
					door: oneOf(doors),
					module: fc.constantFrom('m1', 'm2', null),
					milliamps: fc.constantFrom(0, 225, 450, null)
				}),
				{ maxLength: 5 }
			)
			.map((list) => list.map((reader, index) => ({ id: `reader${index + 1}`, ...reader }))),
		schedules: each(
			schedules,
			fc
				.tuple(
					limits(date, 'from', 'until'),
					week,
					fc.record(Object.fromEntries(kinds.map((kind) => [kind, treatment])), { requiredKeys: [] })
				)
				.map(([validity, hours, holidays]) => ({ ...validity, week: hours ?? null, holidays }))
		),
		holidays: fc.record({
			coveredUntil: fc.option(fc.constantFrom(horizon.from, horizon.until, plusDays(horizon.until, -1)), { freq: 4 }),
			days: fc.array(fc.record({ date, kind: fc.constantFrom(...kinds) }), { maxLength: 5 })
		}),
		people: each(
			people,
			fc
				.tuple(
					limits(date, 'startsOn', 'leavesOn'),
					fc.record({
						department: fc.constantFrom(...departments, null),
						job: fc.constantFrom(...jobs, null),
						shiftPattern: fc.option(oneOf(patterns), { freq: 8 }),
						workAreas: fc.oneof(
							{ weight: 5, arbitrary: fc.subarray(areas, { minLength: 1, maxLength: 2 }) },
							fc.constant([])
						),
						wave: maybeOneOf(waves)
					})
				)
				.map(([employed, rest]) => ({ ...employed, ...rest }))
		),
		shiftPatterns: each(
			patterns,
			fc
				.tuple(
					date,
					fc.oneof(fc.integer({ min: -40, max: 40 }), fc.integer({ min: -9000, max: 9000 })),
					fc.oneof(
						{ weight: 5, arbitrary: fc.integer({ min: 1, max: 9 }) },
						{ weight: 1, arbitrary: fc.integer({ min: 10, max: 60 }) }
					)
				)
				.chain(([near, further, cycleDays]) =>
					fc.record({
						anchor: fc.constant(plusDays(near, further)),
						cycleDays: fc.constant(cycleDays),
						shifts: fc.array(fc.record({ day: fc.integer({ min: 0, max: cycleDays - 1 }), at: stretch }), {
							minLength: 1,
							maxLength: 4
						}),
						worksOn: fc.subarray([...kinds])
					})
				)
		),
		absences: fc.array(
			fc.tuple(oneOf(people), limits(date, 'from', 'until')).map(([person, absent]) => ({ person, ...absent })),
			{ maxLength: 2 }
		),
		accessProfiles: each(
			profiles,
			fc.record({
				entries: fc.oneof(
					{ weight: 9, arbitrary: fc.array(profileEntry, { minLength: 1, maxLength: 3 }) },
					fc.constant([])
				)
			})
		),
		assignments: each(
			idsOf('assignment', count.assignments),
			fc
				.tuple(
					limits(date, 'from', 'until'),
					oneOf(profiles),
					fc.oneof(
						{ weight: 4, arbitrary: fc.constant({ everyone: true }) },
						{
							weight: 1,
							arbitrary: fc.constant<PlainAssignment['who']>({ everyone: true, people: people.slice(0, 1), jobs: [] })
						},
						{
							weight: 4,
							arbitrary: fc.record({
								everyone: fc.constantFrom(false, null),
								people: fc.subarray(people),
								departments: fc.subarray([...departments, 'Nowhere']),
								jobs: fc.subarray([...jobs]),
								waves: fc.subarray(waves)
							})
						},
						fc.constant({})
					)
				)
				.map(([inForce, accessProfile, who]) => ({ who, accessProfile, ...inForce }))
		),
		enrollment: fc.record({ waves: each(waves, fc.record({ goLive: fc.option(date) })) })
	});
}
