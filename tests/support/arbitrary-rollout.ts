import fc from 'fast-check';
import {
	amount,
	clock,
	date,
	filled,
	identified,
	identifiedWith,
	ids,
	limits,
	list,
	maybe,
	maybeOne,
	object,
	one,
	share,
	some,
	stretch,
	stretches,
	whole,
	withFields,
	word,
	words,
	yesOrNo
} from './arbitrary-parts';
import type { RolloutDocument } from '../../src/lib/core/document/schema';

/**
 * Random valid documents in every form that the format allows: each optional key left out, null or filled, lists missing,
 * null, empty or full, keys in any order, odd characters in ids and free words, every list with entries that name others.
 * What they mean is of no concern here.
 */
export function arbitraryDocument(): fc.Arbitrary<RolloutDocument> {
	return fc
		.record(Object.fromEntries(idLists.map((name) => [name, ids])))
		.chain((named) => documentOf(named as unknown as Ids));
}

const idLists = [
	...(['areas', 'doors', 'doorGroups', 'controllers', 'readers', 'schedules', 'people'] as const),
	...(['shiftPatterns', 'accessProfiles', 'assignments', 'waves', 'captureClasses', 'stations', 'notices'] as const)
];

type Ids = Record<(typeof idLists)[number], readonly string[]>;

function documentOf(named: Ids): fc.Arbitrary<RolloutDocument> {
	return fc
		.tuple(doorsAndReaders(named), object(groupsOf(named)), object(rootOf(named)))
		.chain(([building, groups, root]) => {
			const merged = { ...root, ...building, ...groups };
			return fc
				.shuffledSubarray(Object.keys(merged), { minLength: Object.keys(merged).length })
				.map((order) => Object.fromEntries(order.map((key) => [key, merged[key as keyof typeof merged]])));
		}) as unknown as fc.Arbitrary<RolloutDocument>;
}

/** A reader sits on its door's controller, when both name one. */
function doorsAndReaders(named: Ids): fc.Arbitrary<Record<string, unknown>> {
	const { areas, controllers, readers } = named;
	const doorIds = areas.length > 0 ? named.doors : [];
	const doors = identified(doorIds, {
		name: maybe(words),
		from: one(areas),
		to: one(areas),
		exit: maybe(fc.constantFrom('free', 'reader')),
		identify: maybe(fc.constantFrom('finger', 'finger-and-pin', 'card', 'card-and-finger')),
		controller: maybeOne(controllers),
		owner: maybe(words)
	});
	const fittings = identified(doorIds.length > 0 ? readers : [], {
		door: one(doorIds),
		controller: maybeOne(controllers),
		module: maybe(words),
		milliamps: maybe(amount)
	});
	return fc.tuple(doors, fittings).map(([made, fitted]) => ({
		doors: made,
		readers: fitted.map((reader) => {
			const controller = made.find((door) => door['id'] === reader['door'])?.['controller'];
			return typeof controller === 'string' && typeof reader['controller'] === 'string'
				? { ...reader, controller }
				: reader;
		})
	}));
}

function rootOf(named: Ids): Record<string, fc.Arbitrary<unknown>> {
	const { areas, doors, people, waves } = named;
	const doorIds = areas.length > 0 ? doors : [];
	const profileNeeds = [named.doorGroups, named.schedules];
	const profiles = named.accessProfiles;
	const treatment = fc.oneof(fc.constantFrom('normal', 'closed', null), stretches);
	return {
		format: fc.constant('doorwright.rollout'),
		version: fc.constant(1),
		site: object({
			name: word,
			timeZone: fc.constantFrom('America/Chicago', 'Europe/Berlin', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'UTC'),
			country: maybe(fc.constantFrom('US', 'DE', 'FR')),
			region: maybe(fc.constantFrom('IL', 'BY', '2A')),
			holidayArea: maybe(words),
			arriveEarlyMinutes: maybe(whole)
		}),
		horizon: fc
			.tuple(fc.integer({ min: 0, max: 20_000 }), fc.integer({ min: 0, max: 3_650 }))
			.map(([from, days]) => ({ from: dayOf(from), until: dayOf(from + days) })),
		areas: filled(areas, identified(areas, { name: maybe(words), outside: maybe(yesOrNo) })),
		doorGroups: filled(named.doorGroups, identified(named.doorGroups, { name: maybe(words), doors: some(doorIds) })),
		controllers: filled(
			named.controllers,
			identified(named.controllers, {
				name: maybe(words),
				maxDoors: maybe(whole),
				maxTemplates: maybe(whole),
				maxSchedules: maybe(whole),
				maxHolidays: maybe(whole),
				supplyMilliamps: maybe(amount)
			})
		),
		schedules: filled(
			named.schedules,
			identifiedWith(
				named.schedules,
				{
					name: maybe(words),
					week: maybe(
						object(
							Object.fromEntries(
								['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, maybe(stretches)])
							)
						)
					),
					holidays: maybe(
						fc.dictionary(
							word.filter((kind) => kind !== '__proto__'),
							treatment,
							{ maxKeys: 3, noNullPrototype: true }
						)
					)
				},
				limits('from', 'until')
			)
		),
		holidays: maybe(
			object({
				coveredUntil: maybe(date),
				days: list(object({ date, name: maybe(words), kind: word }))
			})
		),
		people: filled(
			people,
			identifiedWith(
				people,
				{
					name: maybe(words),
					department: maybe(words),
					job: maybe(words),
					email: maybe(words),
					shiftPattern: maybeOne(named.shiftPatterns),
					workAreas: some(areas),
					wave: maybeOne(waves),
					captureClass: maybeOne(named.captureClasses),
					needs: maybe(fc.array(words, { maxLength: 2 })),
					language: maybe(words)
				},
				limits('startsOn', 'leavesOn')
			)
		),
		shiftPatterns: filled(
			named.shiftPatterns,
			identifiedWith(
				named.shiftPatterns,
				{ name: maybe(words), anchor: date, worksOn: maybe(fc.array(word, { maxLength: 2 })) },
				fc.integer({ min: 1, max: 60 }).chain((cycleDays) =>
					fc.record({
						cycleDays: fc.constant(cycleDays),
						shifts: maybe(fc.array(object({ day: fc.nat(cycleDays - 1), at: stretch }), { maxLength: 3 }))
					})
				)
			)
		),
		absences: list(withFields(object({ person: one(people) }), limits('from', 'until')), [people]),
		accessProfiles: filled(
			profiles,
			identified(profiles, {
				name: maybe(words),
				entries: list(object({ doorGroup: one(named.doorGroups), schedule: one(named.schedules) }), profileNeeds)
			})
		),
		assignments: filled(
			profiles.length > 0 ? named.assignments : [],
			identifiedWith(
				profiles.length > 0 ? named.assignments : [],
				{
					who: object({
						everyone: maybe(yesOrNo),
						people: some(people),
						departments: maybe(fc.array(words, { maxLength: 2 })),
						jobs: maybe(fc.array(words, { maxLength: 2 })),
						waves: some(waves)
					}),
					accessProfile: one(profiles),
					approvedBy: maybe(words)
				},
				limits('from', 'until')
			)
		)
	};
}

function groupsOf(named: Ids): Record<string, fc.Arbitrary<unknown>> {
	const { areas, people, waves, captureClasses, notices } = named;
	const stations = areas.length > 0 ? named.stations : [];
	const places = fc.oneof(word, one([...named.controllers, ...stations, 'safe']));
	const enrollment = object({
		gridMinutes: maybe(fc.integer({ min: 1, max: 1440 })),
		waves: filled(waves, identified(waves, { name: maybe(words), enrollBy: maybe(date), goLive: maybe(date) })),
		captureClasses: filled(
			captureClasses,
			identified(captureClasses, {
				name: maybe(words),
				minutes: whole,
				stages: maybe(object({ noticeMinutes: maybe(amount), fingers: maybe(fc.integer({ min: 0, max: 10 })) }))
			})
		),
		stations: filled(
			stations,
			identified(stations, {
				name: maybe(words),
				area: one(areas),
				lanes: maybe(fc.integer({ min: 1, max: 9 })),
				turnoverMinutes: maybe(whole),
				serves: maybe(fc.array(words, { maxLength: 2 })),
				open: list(object({ date, at: stretch }))
			})
		),
		walks: list(object({ between: fc.tuple(one(areas), one(areas)), minutes: maybe(whole) }), [areas]),
		awayLimits: list(object({ department: words, maxAway: maybe(whole) })),
		bookings: list(
			object({
				person: one(people),
				station: one(stations),
				lane: maybe(fc.integer({ min: 1, max: 9 })),
				start: fc.tuple(date, clock).map(([day, time]) => `${day}T${time}`),
				minutes: whole,
				fixed: maybe(yesOrNo),
				toldOn: maybe(date),
				toldOf: maybe(
					object({ station: words, start: fc.tuple(date, clock).map(([day, time]) => `${day}T${time}`), on: date })
				)
			}),
			[people, stations]
		),
		visits: list(
			object({
				person: one(people),
				station: maybe(one(stations)),
				on: date,
				minutes: maybe(amount),
				outcome: fc.constantFrom('enrolled', 'repeat', 'failed', 'no-show')
			}),
			[people, stations]
		),
		assumptions: maybe(
			object({
				noShow: maybe(share),
				repeatVisit: maybe(share),
				failToEnroll: maybe(share),
				minutesSpread: maybe(amount)
			})
		),
		invitation: maybe(object({ contact: maybe(words), email: maybe(words), phone: maybe(words), bring: maybe(words) }))
	});
	const shortId = fc.stringMatching(/^[a-z]{1,4}$/);
	const unlike = <T>(entry: fc.Arbitrary<T>) =>
		fc.uniqueArray(entry, { maxLength: 3, selector: (each) => (each as { id: string }).id });
	const ofPeople = <T>(entry: fc.Arbitrary<T>) => (people.length > 0 ? unlike(entry) : fc.constant([]));
	const erasure = object({
		from: places,
		on: date,
		by: maybe(words),
		evidence: maybe(words),
		secondBy: maybe(words),
		secondOn: maybe(date)
	});
	const privacy = object({
		regimes: maybe(fc.subarray(['us-il', 'us-tx', 'us-wa', 'eu', 'uk', 'fr', 'ca-qc'])),
		siteRules: maybe(object({ daysAfterLeaving: maybe(whole), daysUnused: maybe(whole) })),
		notices: filled(
			notices,
			identified(notices, {
				version: maybe(words),
				language: maybe(words),
				publishedOn: maybe(date),
				replaces: maybeOne(notices),
				needsFreshConsent: maybe(yesOrNo)
			})
		),
		consents: list(
			object({
				person: one(people),
				notice: one(notices),
				decision: fc.constantFrom('given', 'declined', 'withdrawn'),
				on: date,
				method: maybe(words)
			}),
			[people, notices]
		),
		templates: list(
			object({
				person: one(people),
				enrolledOn: date,
				lastUsedOn: maybe(date),
				unneededSince: maybe(date),
				storedOn: fc.array(places, { minLength: 1, maxLength: 3 }),
				erasures: list(erasure)
			}),
			[people]
		),
		holds: list(withFields(object({ person: one(people), reason: maybe(words) }), limits('from', 'until')), [people]),
		places: unlike(
			object({
				id: shortId,
				name: maybe(words),
				kind: maybe(fc.constantFrom('controller', 'reader', 'station', 'backup', 'other')),
				copies: maybe(fc.array(places, { maxLength: 2 })),
				keepsDays: maybe(fc.integer({ min: 0, max: 36_500 })),
				expiresOn: maybe(date),
				offlineSince: maybe(date)
			})
		),
		erasureOrders: ofPeople(
			object({
				id: shortId,
				person: one(people),
				enrolledOn: date,
				openedOn: date,
				openedBy: maybe(words),
				reason: maybe(words),
				reports: maybe(list(object({ from: places, on: date, by: words, evidence: words })))
			})
		),
		erasureRules: maybe(object({ secondPerson: maybe(yesOrNo) })),
		requests: ofPeople(
			object({
				id: shortId,
				person: one(people),
				kind: fc.constantFrom('access', 'erasure', 'withdrawal', 'objection'),
				receivedOn: date,
				channel: maybe(words),
				answer: maybe(words)
			})
		),
		office: maybe(object({ controller: maybe(words), answerWithinDays: maybe(fc.integer({ min: 1, max: 366 })) }))
	});
	const isNamed = [waves, captureClasses, stations].some((names) => names.length > 0);
	return {
		enrollment: isNamed ? enrollment : maybe(enrollment),
		privacy: notices.length > 0 ? privacy : maybe(privacy)
	};
}

function dayOf(epochDay: number): string {
	return new Date(epochDay * 86_400_000).toISOString().slice(0, 10);
}
