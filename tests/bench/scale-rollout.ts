import type { RolloutDocument } from '../../src/lib/core/document/schema';

/** How large a site is made. */
export interface Scale {
	readonly people: number;
	readonly doors: number;
	readonly areas: number;
	readonly schedules: number;
	readonly assignments: number;
}

const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

/**
 * An invented site of any size over two years: areas in a tree below the street, departments with shift patterns by day, by
 * night and on 8-day cycles, schedules of all hours. The same numbers give the same site.
 */
export function scaleRollout({ people, doors, areas, schedules, assignments }: Scale): RolloutDocument {
	const random = sequence(7);
	const pick = (count: number) => Math.floor(random() * count);
	const two = (value: number) => String(value).padStart(2, '0');
	const departments = Math.max(1, Math.floor(assignments / 4));
	const range = <T>(count: number, make: (place: number) => T): T[] =>
		Array.from({ length: count }, (_, place) => make(place));
	const days = ['2027', '2028'].flatMap((year) =>
		['01-01', '05-31', '07-05', '09-06', '11-25', '12-24'].map((day) => ({ date: `${year}-${day}`, kind: 'public' }))
	);
	const document = {
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Scale', timeZone: 'America/Chicago', arriveEarlyMinutes: 15 },
		horizon: { from: '2027-01-01', until: '2028-12-31' },
		areas: range(areas, (place) => ({ id: `a${place}`, ...(place === 0 ? { outside: true } : {}) })),
		doors: range(doors, (place) => {
			const to = 1 + (place % (areas - 1));
			return { id: `d${place}`, from: `a${place < areas - 1 ? Math.floor(to / 3) : pick(areas)}`, to: `a${to}` };
		}),
		doorGroups: range(60, (place) => ({
			id: `g${place}`,
			doors: range(doors, (door) => `d${door}`).filter((_, door) => door % 60 === place || door < 3)
		})),
		schedules: range(schedules, (place) => {
			const at = `${two((place * 5) % 24)}:45-${two((place * 5 + 8) % 24)}:15`;
			const open = place % 4 === 0 ? '00:00-24:00' : at;
			return {
				id: `s${place}`,
				week: Object.fromEntries(weekdays.slice(0, place % 3 === 0 ? 7 : 5).map((day) => [day, [open]])),
				holidays: { public: place % 2 === 0 ? 'normal' : 'closed' }
			};
		}),
		holidays: { coveredUntil: '2028-12-31', days },
		shiftPatterns: range(12, (place) => ({
			id: `p${place}`,
			anchor: '2027-01-04',
			cycleDays: place % 3 === 0 ? 8 : 7,
			shifts: range(place % 3 === 0 ? 4 : 5, (day) => ({
				day,
				at: ['06:00-14:00', '14:00-22:00', '22:00-06:00'][place % 3] as string
			})),
			worksOn: place % 4 === 0 ? ['public'] : []
		})),
		people: range(people, (place) => ({
			id: String(100_000 + place),
			department: `dep${place % departments}`,
			job: `job${place % 7}`,
			startsOn: place % 20 === 0 ? '2027-06-15' : '2020-01-01',
			...(place % 25 === 0 ? { leavesOn: '2028-03-31' } : {}),
			shiftPattern: `p${(place % departments) % 12}`,
			workAreas: [`a${1 + ((place % departments) % (areas - 1))}`]
		})),
		accessProfiles: range(100, (place) => ({
			id: `ap${place}`,
			entries: range(3, (entry) => ({
				doorGroup: `g${(place * 3 + entry) % 60}`,
				schedule: `s${(place * 4 + entry) % schedules}`
			}))
		})),
		assignments: range(assignments, (place) => ({
			id: `as${place}`,
			who: place < 3 ? { everyone: true } : { departments: [`dep${place % departments}`] },
			accessProfile: `ap${place % 100}`,
			...(place % 5 === 0 ? { from: '2027-02-01' } : {})
		}))
	};
	return document as unknown as RolloutDocument;
}

/**
 * The same site with people who have little in common: each with dates, work areas and absences of their own, on 40 patterns of
 * 28 days, and a quarter of the assignments by person.
 */
export function unalikeRollout(scale: Scale): RolloutDocument {
	const document = scaleRollout(scale);
	const random = sequence(11);
	const pick = (count: number) => Math.floor(random() * count);
	const dateOf = (day: number) => new Date(Date.UTC(2027, 0, 1 + day)).toISOString().slice(0, 10);
	const times = ['06:00-14:00', '14:00-22:00', '22:00-06:00'];
	const people = (document.people ?? []).map((person) => ({
		...person,
		job: `job${pick(40)}`,
		startsOn: dateOf(pick(700) - 100),
		leavesOn: pick(2) === 0 ? null : dateOf(601 + pick(120)),
		shiftPattern: `p${pick(40)}`,
		workAreas: [`a${1 + pick(scale.areas - 1)}`, `a${1 + pick(scale.areas - 1)}`]
	}));
	const changed = {
		...document,
		people,
		absences: people.map(({ id }) => ({ person: id, from: dateOf(pick(300)), until: dateOf(300 + pick(20)) })),
		shiftPatterns: Array.from({ length: 40 }, (_, place) => ({
			id: `p${place}`,
			anchor: dateOf(place),
			cycleDays: 28,
			shifts: Array.from({ length: 28 }, (_unused, day) => ({
				day,
				at: times[Math.floor(day / 7) % 3] as string
			})).filter(({ day }) => (day * 3 + place) % 7 < 5),
			worksOn: place % 2 === 0 ? [] : ['public']
		})),
		assignments: (document.assignments ?? []).map((assignment, place) =>
			place % 4 === 1
				? { ...assignment, who: { people: Array.from({ length: 500 }, () => people[pick(people.length)]?.id ?? '') } }
				: assignment
		)
	};
	return changed as unknown as RolloutDocument;
}

/** As `unalikeRollout`, with every assignment naming 500 people: hardly two have the same access. */
export function namedRollout(scale: Scale): RolloutDocument {
	const document = unalikeRollout(scale);
	const random = sequence(5);
	const ids = (document.people ?? []).map(({ id }) => id);
	const anybody = () => ids[Math.floor(random() * ids.length)] ?? '';
	const assignments = (document.assignments ?? []).map((assignment) => ({
		...assignment,
		who: { people: Array.from({ length: 500 }, anybody) }
	}));
	return { ...document, assignments };
}

/** Numbers from 0 to 1 in a fixed order (linear congruential). */
function sequence(seed: number): () => number {
	let state = seed;
	return () => {
		state = (state * 1_103_515_245 + 12_345) % 0x80000000;
		return state / 0x80000000;
	};
}
