import type { RolloutDocument } from '../../src/lib/core/document/schema';

/**
 * Invented sites for which a plan for everybody is known, because the people are made to fit one: lanes are filled with
 * bookings, and each booking gets a person whose shift, wave, needs and department allow it.
 */
export interface PlantedTerms {
	readonly people: number;
	readonly stations: number;
	readonly days: number;
	/** Share of the open minutes that the known plan uses, turnover included. */
	readonly use: number;
	readonly seed: number;
	readonly lanes?: number;
	readonly classes?: readonly number[];
	readonly turnover?: number;
	readonly grid?: number;
	/** Away-limits that the known plan just keeps. */
	readonly withLimits?: boolean;
	readonly departments?: number;
	/** Share of people who are absent for some days. */
	readonly absent?: number;
	/** People have few days, stations and hours to choose from: many waves, short employment, needs, narrow shifts. */
	readonly isTight?: boolean;
	/** Open hours: a few short stretches, or two half days and an evening. */
	readonly stretches?: readonly string[];
}

export interface Planted {
	readonly document: RolloutDocument;
	/** Bookings of the known plan. */
	readonly bookings: number;
}

const patterns = [
	{ id: 'early', shifts: [0, 1, 2, 3, 4].map((day) => ({ day, at: '06:00-14:00' })), cycleDays: 7 },
	{ id: 'late', shifts: [0, 1, 2, 3, 4].map((day) => ({ day, at: '14:00-22:00' })), cycleDays: 7 },
	{ id: 'night', shifts: [0, 1, 2, 3, 4].map((day) => ({ day, at: '22:00-06:00' })), cycleDays: 7 },
	{ id: 'office', shifts: [0, 1, 2, 3, 4].map((day) => ({ day, at: '08:00-17:00' })), cycleDays: 7 },
	{ id: 'four-on', shifts: [0, 1, 2, 3].map((day) => ({ day, at: '07:00-19:00' })), cycleDays: 8 },
	{ id: 'short', shifts: [1, 3].map((day) => ({ day, at: '09:30-13:10' })), cycleDays: 7 }
];

/** Random numbers in [0, 1) from a seed: mulberry32, public domain. */
export function chance(seed: number): () => number {
	let state = seed >>> 0;
	return () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let mixed = Math.imul(state ^ (state >>> 15), state | 1);
		mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
	};
}

const monday = Date.UTC(2027, 0, 11) / 86400000;

function dateOf(day: number): string {
	return new Date((monday + day) * 86400000).toISOString().slice(0, 10);
}

function minutesOf(clock: string): number {
	return Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
}

/** Minutes after the Monday's midnight from which to which somebody of a pattern is at work on a day; undefined when off. */
function workOf(pattern: (typeof patterns)[number], day: number): { from: number; to: number }[] {
	const cycleDay = ((day % pattern.cycleDays) + pattern.cycleDays) % pattern.cycleDays;
	return pattern.shifts
		.filter((shift) => shift.day === cycleDay)
		.map(({ at }) => {
			const [from, end] = [minutesOf(at.slice(0, 5)), minutesOf(at.slice(6))];
			return { from: day * 1440 + from, to: day * 1440 + (end <= from ? end + 1440 : end) };
		});
}

/** Makes a site. Times are in a zone without clock changes in that month. */
export function planted(terms: PlantedTerms): Planted {
	const random = chance(terms.seed);
	const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
	const classes = terms.classes ?? [8, 13];
	const turnover = terms.turnover ?? 2;
	const grid = terms.grid ?? 5;
	const areas = ['street', ...Array.from({ length: 6 }, (_, index) => `area-${index}`)];
	const walkOf = (a: number, b: number): number => Math.abs(a - b) * 2;
	const shares = terms.isTight === true ? [0.15, 0.3, 0.45, 0.6, 0.8, 1] : [0.3, 0.6, 1];
	const waves = shares.map((share, index) => ({
		id: `w${index}`,
		enrollBy: dateOf(Math.max(0, Math.ceil(terms.days * share) - 1))
	}));
	const lastDay = shares.map((share) => Math.max(0, Math.ceil(terms.days * share) - 1));
	const stations = Array.from({ length: terms.stations }, (_, index) => ({
		id: `s${index}`,
		area: areas[1 + (index % 6)] as string,
		place: index % 6,
		lanes: terms.lanes ?? 1,
		turnoverMinutes: turnover,
		serves: index % 2 === 0 ? ['step-free', 'quiet'] : index % 3 === 0 ? ['quiet'] : [],
		open: [] as { date: string; at: string }[]
	}));
	const stretches = terms.stretches ?? ['07:00-12:00', '13:00-17:00', '20:00-23:50'];
	const people: NonNullable<RolloutDocument['people']> = [];
	const absences: NonNullable<RolloutDocument['absences']> = [];
	const away = new Map<string, [number, number][]>();
	const sizes = terms.departments ?? 12;
	const waveFor = (day: number): number => {
		const possible = [...waves.keys()].filter((wave) => (lastDay[wave] as number) >= day);
		return terms.isTight === true && random() < 0.6 ? (possible[0] as number) : pick(possible);
	};
	outer: for (let day = 0; day < terms.days; day++) {
		if ((monday + day + 3) % 7 >= 5) continue;
		for (const at of stretches) {
			for (const station of stations) {
				if (people.length >= terms.people) break outer;
				station.open.push({ date: dateOf(day), at });
				const end = minutesOf(at.slice(6)) || 1440;
				for (let lane = 0; lane < station.lanes; lane++) {
					for (let minute = Math.ceil(minutesOf(at.slice(0, 5)) / grid) * grid; minute < end;) {
						const index = Math.floor(random() * classes.length);
						const minutes = classes[index] as number;
						const taken = Math.ceil((minutes + turnover) / grid) * grid;
						const isIdle = random() > terms.use;
						const from = day * 1440 + minute;
						const home = Math.floor(random() * 6);
						const walk = walkOf(home, station.place);
						const possible = patterns.filter((pattern) =>
							[day - 1, day].some((on) =>
								workOf(pattern, on).some((work) => work.from <= from - walk && from + minutes + walk <= work.to)
							)
						);
						if (minute + minutes > end) {
							minute += grid;
							continue;
						}
						minute += taken;
						if (isIdle || possible.length === 0) continue;
						const department = `dept-${Math.floor(random() * sizes)}`;
						const id = `p${people.length}`;
						people.push({
							id,
							department,
							shiftPattern: pick(possible).id,
							workAreas: [areas[1 + home] as string],
							wave: `w${waveFor(day)}`,
							...(terms.isTight === true && random() < 0.35
								? {
										startsOn: dateOf(day - Math.floor(random() * 3)) as never,
										leavesOn: dateOf(day + Math.floor(random() * 3)) as never
									}
								: {}),
							captureClass: `c${index}`,
							needs: station.serves.filter(() => random() < (terms.isTight === true ? 0.4 : 0.15))
						});
						const list = away.get(department) ?? [];
						list.push([from - walk, from + minutes + walk]);
						away.set(department, list);
						if (random() < (terms.absent ?? 0.05)) {
							const begin = day + 2 + Math.floor(random() * 5);
							absences.push({ person: id, from: dateOf(begin) as never, until: dateOf(begin + 4) as never });
						}
					}
				}
			}
		}
	}
	const awayLimits =
		terms.withLimits === true ? [...away].map(([department, spans]) => ({ department, maxAway: most(spans) })) : [];
	const shuffled = people.map((person) => ({ person, key: random() })).sort((a, b) => a.key - b.key);
	const walks: { between: [string, string]; minutes: number }[] = [];
	for (let a = 0; a < 6; a++) {
		for (let b = a; b < 6; b++)
			walks.push({ between: [areas[a + 1] as string, areas[b + 1] as string], minutes: walkOf(a, b) });
	}
	const document = {
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Invented site', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		areas: areas.map((id) => ({ id, outside: id === 'street' })),
		people: shuffled.map(({ person }) => person),
		absences,
		shiftPatterns: patterns.map((pattern) => ({ ...pattern, anchor: '2027-01-11' })),
		enrollment: {
			gridMinutes: grid,
			waves,
			captureClasses: classes.map((minutes, index) => ({ id: `c${index}`, minutes })),
			stations: stations.map(({ place: _, ...station }) => station),
			walks,
			awayLimits
		}
	} as unknown as RolloutDocument;
	return { document, bookings: people.length };
}

function most(spans: readonly (readonly [number, number])[]): number {
	const events = spans.flatMap(([from, to]) => [
		{ at: from, change: 1 },
		{ at: to, change: -1 }
	]);
	events.sort((a, b) => a.at - b.at || a.change - b.change);
	let count = 0;
	return events.reduce((best, { change }) => Math.max(best, (count += change)), 0);
}
