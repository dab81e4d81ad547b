import { type LocalDate, dateOf } from '../../calendar/local-date';
import { type Work, unwatched } from '../../kernel/work';
import { Chance } from './chance';
import { DemandTally } from './demand-tally';
import type { VisitAssumptions } from './meet-desk';
import type { ForecastPuzzle } from './puzzle';
import { quantileOf } from './quantile';
import { type Rebooking, Rebookings } from './rebookings';
import { roomLeft } from './room-left';

/** Time to keep free so that whoever must come again can do so by their due date. */
export interface Reserve {
	/** Share of futures in which that time suffices. */
	readonly confidence: number;
	/** By due date, ascending; whoever has none comes last. */
	readonly dues: readonly DueReserve[];
}

export interface ReserveAmount {
	/** Appointments, and minutes at a station with their turnover. */
	readonly appointments: number;
	readonly minutes: number;
	/** Appointments of the longest station time that still fit beside the plan: station time only, not who could come. */
	readonly room: number;
}

/** What must be kept free up to a due date, for everybody who is due by then. */
export interface DueReserve extends ReserveAmount {
	/** Null for people whose wave has no date. */
	readonly date: LocalDate | null;
	/** Waves that are due on it; none for people without a wave. */
	readonly waves: readonly string[];
	/** People of the plan who are due by then, and how many more appointments they need on average. */
	readonly people: number;
	readonly mean: number;
	/** People due by then for whom the plan has no place: their time comes on top. */
	readonly unplanned: number;
	/** Where it must lie: in each week and those after it together at least what stands there. Monday to Sunday. */
	readonly weeks: readonly WeekReserve[];
	/** Every station by itself, with the same confidence; together more than the whole, since they do not help each other out. */
	readonly stations: readonly StationReserve[];
	/** True where what fits beside the plan suffices in every week and those after it. */
	readonly isKept: boolean;
	/** People due on this very date who cannot come again by then, however much is kept free: how many on average, and how likely none. */
	readonly late: { readonly mean: number; readonly none: number };
}

export interface WeekReserve extends ReserveAmount {
	/** First and last day of the week with a station open. */
	readonly from: LocalDate;
	readonly until: LocalDate;
}

export interface StationReserve extends ReserveAmount {
	readonly station: string;
}

/** Futures that are played out for it at most, and numbers kept: more would not change a quantile that anybody asks for. */
const mostRuns = 10_000;
const mostNumbers = 5_000_000;

/**
 * Plays rebookings out and gives, for each confidence (0 to 1, exclusive), the least time to keep free. Rebookings of a future suffice
 * when those that can be held only in a week or later fit into what is kept free from that week on, for every week.
 * Cost: appointments times runs.
 */
export function reserveTime(
	puzzle: ForecastPuzzle,
	assumptions: VisitAssumptions,
	options: { readonly runs: number; readonly seed: number; readonly confidences: readonly number[] },
	work: Work = unwatched
): Reserve[] {
	const groups = groupsOf(puzzle);
	const weeks = weeksOf(puzzle);
	const weekOfDay = puzzle.days.map((day) => weeks.findIndex(({ days }) => days.includes(day)));
	const groupOf = Int32Array.from(puzzle.people, (_, place) =>
		groups.findIndex(({ deadline }) => deadline === puzzle.deadlineOf[place])
	);
	const affordable = Math.max(200, Math.floor(mostNumbers / Math.max(1, groups.length * weeks.length)));
	const runs = Math.min(options.runs, mostRuns, affordable);
	const tally = new DemandTally(groups.length, weeks.length, puzzle.board.instance.lattices.length, runs);
	const rebookings = new Rebookings(puzzle, assumptions);
	const chance = new Chance(options.seed);
	const events = {
		needed: ({ person, day, station, minutes }: Rebooking) =>
			tally.add(groupOf[person] as number, weekOfDay[day] as number, station, minutes),
		late: (person: number) => tally.addLate(groupOf[person] as number)
	};
	while (tally.runs < runs && !(tally.runs > 0 && work.isCancelled())) {
		rebookings.run(chance, events);
		tally.closeRun();
	}
	if (puzzle.days.length === 0 || tally.runs === 0)
		return options.confidences.map((confidence) => ({ confidence, dues: [] }));
	const room = roomOf(puzzle, weeks, groups);
	return options.confidences.map((confidence) => ({
		confidence,
		dues: groups.map((group, place) =>
			dueReserve(puzzle, tally, { group, place, weeks, confidence, room: room[place] as Room })
		)
	}));
}

interface Group {
	readonly deadline: number;
	readonly date: LocalDate | null;
	readonly waves: readonly string[];
	/** Of those due by then: in the plan, and without a place in it. */
	readonly people: number;
	readonly unplanned: number;
	/** The longest station time among them in minutes. */
	readonly longest: number;
}

/** Due dates of people to be enrolled, ascending; what is counted is counted of everybody due by then. */
function groupsOf({ model, people, deadlineOf, waiting }: ForecastPuzzle): Group[] {
	const deadlines = [...new Set(deadlineOf)].sort((a, b) => a - b);
	const isWaiting = new Set(waiting);
	return deadlines.map((deadline) => {
		const own = people.find((_, place) => deadlineOf[place] === deadline);
		const date = own ? model.enrollByOf(own) : null;
		const due = [...people.keys()].filter((place) => (deadlineOf[place] as number) <= deadline);
		return {
			deadline,
			date,
			waves: model.rollout.enrollment.waves.flatMap(({ id, enrollBy }) => (enrollBy === date ? [id] : [])),
			people: due.filter((place) => !isWaiting.has(place)).length,
			unplanned: due.filter((place) => isWaiting.has(place)).length,
			longest: due.reduce((most, place) => Math.max(most, model.minutesOf(people[place] as never) ?? 0), 0)
		};
	});
}

interface Week {
	readonly days: readonly number[];
}

/** Days with a desk by week; 1970-01-01 was a Thursday. */
function weeksOf({ days }: ForecastPuzzle): Week[] {
	const weeks: { number: number; days: number[] }[] = [];
	for (const day of days) {
		const number = Math.floor((day + 3) / 7);
		const last = weeks.at(-1);
		if (last?.number === number) last.days.push(day);
		else weeks.push({ number, days: [day] });
	}
	return weeks;
}

/** Appointments that still fit up to a due date, by week and by station. */
interface Room {
	readonly byWeek: readonly number[];
	readonly byStation: readonly number[];
}

function roomOf(puzzle: ForecastPuzzle, weeks: readonly Week[], groups: readonly Group[]): Room[] {
	const { board, desksOfDay, days } = puzzle;
	return groups.map(({ date, longest }) => {
		const byWeek = weeks.map(() => 0);
		const byStation = board.instance.lattices.map(() => 0);
		days.forEach((day, place) => {
			if (date !== null && dateOf(day) > date) return;
			const week = weeks.findIndex((one) => one.days.includes(day));
			for (const desk of desksOfDay[place] ?? []) {
				const { station } = board.lanes[desk.lane] as (typeof board.lanes)[number];
				const count = roomLeft(puzzle, desk, longest);
				byWeek[week] = (byWeek[week] as number) + count;
				byStation[station] = (byStation[station] as number) + count;
			}
		});
		return { byWeek, byStation };
	});
}

function dueReserve(
	{ board }: ForecastPuzzle,
	tally: DemandTally,
	terms: { group: Group; place: number; weeks: readonly Week[]; confidence: number; room: Room }
): DueReserve {
	const { group, place, confidence, room } = terms;
	const last = group.date;
	const weeks = terms.weeks.flatMap(({ days }) => {
		const dates = days.map((day) => dateOf(day as never)).filter((date) => last === null || date <= last);
		return dates.length === 0 ? [] : [{ from: dates[0] as LocalDate, until: dates.at(-1) as LocalDate }];
	});
	const tails = tally.tailsFor(place, weeks.length, confidence);
	const perWeek = weeks.map((week, index): WeekReserve => {
		const [own, after] = [tails[index], tails[index + 1]];
		return {
			...week,
			appointments: (own?.appointments ?? 0) - (after?.appointments ?? 0),
			minutes: (own?.minutes ?? 0) - (after?.minutes ?? 0),
			room: room.byWeek[index] as number
		};
	});
	const sum = (from: number, of: (week: WeekReserve) => number): number =>
		perWeek.slice(from).reduce((total, week) => total + of(week), 0);
	const late = tally.lateOf(place);
	return {
		date: group.date,
		waves: group.waves,
		people: group.people,
		unplanned: group.unplanned,
		mean: tally.meanOf(place),
		appointments: sum(0, ({ appointments }) => appointments),
		minutes: sum(0, ({ minutes }) => minutes),
		room: sum(0, (week) => week.room),
		weeks: perWeek,
		stations: board.instance.lattices.map(({ ready }, station) => {
			const { appointments, minutes } = tally.atStation(place, station);
			return {
				station: ready.station.id,
				appointments: quantileOf(appointments, confidence),
				minutes: quantileOf(minutes, confidence),
				room: room.byStation[station] as number
			};
		}),
		isKept: perWeek.every((_, index) => sum(index, (week) => week.room - week.appointments) >= 0),
		late
	};
}
