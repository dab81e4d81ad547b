import fc from 'fast-check';
import type { RolloutDocument } from '../../src/lib/core/document/schema';
import { plusDays } from '../oracles/timeline';
import { chance } from './planted';

/**
 * Random small enrollment puzzles around clock changes, rich in what is easily got wrong: nights, stretches that touch or overlap,
 * grids that do not divide the hour, walks that lead out of a shift, limits of employment in the middle of a shift, absences,
 * fixed bookings good and bad, declined consents, erased and kept templates.
 */
export interface SmallTerms {
	readonly seed: number;
	readonly people: number;
	readonly stations: number;
	/** Without bookings in the document. */
	readonly isPlain: boolean;
}

const placesInTime = [
	['America/Chicago', '2027-01-11'],
	['America/Chicago', '2027-01-11'],
	['America/Chicago', '2027-03-14'],
	['America/Chicago', '2027-11-07'],
	['Europe/London', '2027-10-31'],
	['Australia/Lord_Howe', '2027-04-04'],
	['Africa/Cairo', '2025-10-30']
] as const;

export function smallTerms(most: { people: number; stations: number }, isPlain?: boolean): fc.Arbitrary<SmallTerms> {
	return fc.record({
		seed: fc.nat(),
		people: fc.integer({ min: 1, max: most.people }),
		stations: fc.integer({ min: 1, max: most.stations }),
		isPlain: isPlain === undefined ? fc.boolean() : fc.constant(isPlain)
	});
}

export function smallPlan(terms: SmallTerms): RolloutDocument {
	const random = chance(terms.seed);
	const below = (count: number): number => Math.floor(random() * count);
	const pick = <T>(list: readonly T[]): T => list[below(list.length)] as T;
	const some = <T>(list: readonly T[], share: number): T[] => list.filter(() => random() < share);
	const maybe = <T>(share: number, value: () => T): T | null => (random() < share ? value() : null);
	const [timeZone, first] = pick(placesInTime);
	const day = (shift: number): string => plusDays(first, shift);
	const gridMinutes = pick([5, 5, 5, 10, 15, 7, 20, 30, 45]);
	const areas = ['a', 'b', 'c'];
	const needs = ['step-free', 'quiet'];
	const begins = ['00:00', '01:00', '01:30', '02:15', '07:58', '08:00', '08:00', '08:30', '22:00', '23:20'];
	const opening = (): { date: string; at: string } => {
		const begin = pick(begins);
		const minutes = (Number(begin.slice(0, 2)) * 60 + Number(begin.slice(3)) + pick([20, 30, 45, 60, 90, 100])) % 1440;
		const end = new Date(minutes * 60_000).toISOString().slice(11, 16);
		return { date: day(below(3) - 1), at: `${begin}-${end}` };
	};
	const touching = (open: { date: string; at: string }[]): { date: string; at: string }[] => {
		const last = open.at(-1);
		if (!last || random() > 0.25 || last.at.slice(6) <= last.at.slice(0, 5) || last.at.slice(6) > '23:00') return open;
		const end = `${String(Number(last.at.slice(6, 8)) + 1).padStart(2, '0')}${last.at.slice(8)}`;
		return [...open, { date: last.date, at: `${last.at.slice(6)}-${end}` }];
	};
	const stations = Array.from({ length: terms.stations }, (_, index) => ({
		id: `s${index}`,
		area: pick(areas),
		lanes: pick([1, 1, 2]),
		turnoverMinutes: pick([0, 2, 2, 5]),
		serves: some(needs, 0.7),
		open: touching(Array.from({ length: 1 + below(2) }, opening))
	}));
	const patterns = Array.from({ length: 3 }, (_, index) => {
		const cycleDays = pick([1, 1, 2, 3]);
		return {
			id: `p${index}`,
			anchor: day(below(5) - 2),
			cycleDays,
			shifts: Array.from({ length: 1 + below(2) }, () => ({
				day: below(cycleDays),
				at: pick([
					'06:00-14:00',
					'22:00-06:00',
					'08:00-09:10',
					'00:00-24:00',
					'00:00-24:00',
					'07:30-16:00',
					'01:00-03:30'
				])
			})),
			worksOn: some(['public'], 0.4)
		};
	});
	const waves = [0, 1].map((index) => ({
		id: `w${index}`,
		enrollBy: random() < 0.9 ? day(below(4)) : null
	}));
	const people = Array.from({ length: terms.people }, (_, index) => ({
		id: `${index}`,
		department: maybe(0.8, () => pick(['red', 'blue'])),
		startsOn: maybe(0.2, () => day(below(3) - 1)),
		leavesOn: maybe(0.2, () => day(1 + below(2))),
		shiftPattern: maybe(0.7, () => pick(patterns).id),
		workAreas: some(areas, 0.5),
		wave: maybe(0.7, () => pick(waves).id),
		captureClass: maybe(0.7, () => pick(['short', 'long'])),
		needs: some(needs, 0.15)
	}));
	const walks = areas.flatMap((from, index) =>
		areas.slice(index).flatMap((to) => {
			const between = random() < 0.5 ? [from, to] : [to, from];
			return random() < 0.6 ? [{ between, minutes: pick([0, 2, 4, 11]) }] : [];
		})
	);
	const classes = [
		{ id: 'short', minutes: pick([3, 8, 10]) },
		{ id: 'long', minutes: pick([10, 13, 18]) }
	];
	const document = {
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Invented site', timeZone },
		horizon: { from: day(-3), until: day(2 + below(3)) },
		areas: areas.map((id) => ({ id })),
		holidays: { days: some([0, 1], 0.2).map((shift) => ({ date: day(shift), kind: pick(['public', 'shutdown']) })) },
		people,
		shiftPatterns: patterns,
		absences: people.flatMap(({ id }) =>
			random() < 0.2
				? [{ person: id, from: maybe(0.8, () => day(below(2))), until: maybe(0.8, () => day(1 + below(2))) }]
				: []
		),
		enrollment: {
			gridMinutes,
			waves,
			captureClasses: classes,
			stations,
			walks,
			awayLimits: some(['red', 'blue'], 0.4).map((department) => ({ department, maxAway: pick([0, 1, 1, 2]) })),
			bookings: [] as object[]
		},
		privacy: {
			notices: [{ id: 'n' }],
			consents: people.flatMap(({ id }) =>
				random() < 0.3
					? Array.from({ length: 1 + below(2) }, () => ({
							person: id,
							notice: 'n',
							decision: pick(['given', 'given', 'declined', 'withdrawn']),
							on: pick(['2025-01-04', '2025-01-05'])
						}))
					: []
			),
			templates: people.flatMap(({ id }) =>
				random() < 0.1
					? [
							{
								person: id,
								enrolledOn: '2025-01-02',
								storedOn: ['c1', 'c2'],
								erasures: some(['c1', 'c2'], 0.6).map((from) => ({ from, on: '2025-01-03' }))
							}
						]
					: []
			)
		}
	};
	if (!terms.isPlain) {
		document.enrollment.bookings = people.flatMap(({ id, captureClass }) => {
			if (random() > 0.2) return [];
			const station = pick(stations);
			const open = pick(station.open);
			const minute = Number(open.at.slice(0, 2)) * 60 + Number(open.at.slice(3, 5));
			const start = (Math.ceil(minute / gridMinutes) + below(3)) * gridMinutes;
			if (start >= 1440) return [];
			const clock = new Date(start * 60_000).toISOString().slice(11, 16);
			const minutes = classes.find((one) => one.id === (captureClass ?? 'short'))?.minutes ?? 0;
			return [
				{
					person: id,
					station: station.id,
					lane: 1 + below(station.lanes),
					start: `${open.date}T${clock}`,
					minutes: random() < 0.9 ? minutes : minutes + 1,
					fixed: random() < 0.8
				}
			];
		});
	}
	return document as unknown as RolloutDocument;
}
