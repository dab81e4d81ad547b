import { type EpochDay, type LocalDate, dateOf } from '../../calendar/local-date';
import type { Instant } from '../../calendar/zone';
import type { Rollout } from '../../document/schema';
import { type Work, unwatched } from '../../kernel/work';
import { EnrollmentModel } from '../model';
import { Chance } from './chance';
import { type ForecastPuzzle, forecastPuzzle } from './puzzle';
import { quantileOf } from './quantile';
import { type Reserve, reserveTime } from './reserve';
import { Simulation, enrolled } from './simulate';
import { startingPlan } from './starting-plan';

/** What is likely to become of the plan: when everybody is done, and how many of each wave in time. */
export interface Forecast {
	/** Futures that were played out: as many as asked for, fewer when it was cancelled. */
	readonly runs: number;
	readonly seed: number;
	/** The date by which, with that chance, nobody waits any more; null where somebody still would. */
	readonly finish: { readonly p50: LocalDate | null; readonly p80: LocalDate | null; readonly p95: LocalDate | null };
	/** In the order of the document. */
	readonly waves: readonly WaveForecast[];
	/** Visits a person, of those still to be enrolled: appointments to which they came. */
	readonly visits: { readonly mean: number };
	/** Enrolled by the end of each day with a station open, those enrolled before included. */
	readonly days: readonly DayForecast[];
}

export interface WaveForecast {
	readonly wave: string;
	/** People of the wave who have not declined, those enrolled before included. */
	readonly people: number;
	/** Number of them enrolled by the wave's `enrollBy`. */
	readonly enrolledOnTime: Spread;
	/** The chance that all of them are. */
	readonly allOnTime: number;
}

export interface Spread {
	readonly mean: number;
	readonly p10: number;
	readonly p50: number;
	readonly p90: number;
}

export interface DayForecast extends Spread {
	readonly date: LocalDate;
}

export interface ForecastOptions {
	/** Futures to play out, at least 1. */
	readonly runs: number;
	readonly seed: number;
}

/**
 * Plays the plan out many times (Monte Carlo): no-shows, repeat visits, failures to enroll and the spread of station time of the
 * document's `assumptions`, with rebooking into the free time that is really left. Without assumptions every run is the plan
 * itself. Bookings of the document stay where they are valid; the others are planned around them first.
 */
export function forecastEnrollment(rollout: Rollout, options: ForecastOptions, work: Work = unwatched): Forecast {
	return playOut(puzzleOf(rollout, options.seed, work), options, work);
}

/** The forecast, and the time to keep free for rebookings, for each confidence asked about. */
export function outlookOf(
	rollout: Rollout,
	options: ForecastOptions & { readonly confidences: readonly number[] },
	work: Work = unwatched
): Forecast & { readonly reserves: readonly Reserve[] } {
	const puzzle = puzzleOf(rollout, options.seed, work);
	const forecast = playOut(puzzle, options, work);
	return { ...forecast, reserves: reserveTime(puzzle, rollout.enrollment.assumptions, options, work) };
}

function puzzleOf(rollout: Rollout, seed: number, work: Work): ForecastPuzzle {
	const model = new EnrollmentModel(rollout);
	return forecastPuzzle(
		model,
		startingPlan(model, seed, () => work.isCancelled())
	);
}

function playOut(puzzle: ForecastPuzzle, options: ForecastOptions, work: Work): Forecast {
	const tally = new Tally(puzzle, options.runs);
	const simulation = new Simulation(puzzle, puzzle.model.rollout.enrollment.assumptions);
	const chance = new Chance(options.seed);
	let runs = 0;
	while (runs < options.runs && !(runs > 0 && work.isCancelled())) {
		simulation.run(chance);
		tally.count(simulation, runs);
		runs++;
		if (runs % 20 === 0 || runs === options.runs) work.report(runs, options.runs, `${runs} futures played out`);
	}
	return { runs, seed: options.seed, ...tally.sum(runs) };
}

/** Gathers what runs come to. */
class Tally {
	readonly #puzzle: ForecastPuzzle;
	readonly #finish: Float64Array;
	/** Enrolled in time in each run, one row a wave. */
	readonly #onTime: Int32Array;
	/** Enrolled on each day in each run, one row a day. */
	readonly #byDay: Int32Array;
	readonly #runs: number;
	readonly #waveOf: Int32Array;
	readonly #before: readonly number[];
	readonly #placeOfDay: ReadonlyMap<number, number>;
	#visits = 0;

	constructor(puzzle: ForecastPuzzle, runs: number) {
		const { waves } = puzzle.model.rollout.enrollment;
		const placeOfWave = new Map(waves.map(({ id }, place) => [id, place]));
		this.#puzzle = puzzle;
		this.#runs = runs;
		this.#finish = new Float64Array(runs);
		this.#onTime = new Int32Array(runs * waves.length);
		this.#byDay = new Int32Array(runs * puzzle.days.length);
		this.#waveOf = Int32Array.from(puzzle.people, ({ wave }) => placeOfWave.get(wave ?? '') ?? -1);
		this.#placeOfDay = new Map(puzzle.days.map((day, place) => [day, place]));
		this.#before = waves.map(({ id }) => countOf(puzzle, (person) => person.wave === id, 'enrolled'));
	}

	count(simulation: Simulation, run: number): void {
		const { deadlineOf, people } = this.#puzzle;
		let last = -Infinity;
		for (let person = 0; person < people.length; person++) {
			const at = simulation.doneAt[person] as number;
			if (at > last) last = at;
			if (simulation.stateOf[person] !== enrolled) continue;
			const wave = this.#waveOf[person] as number;
			if (wave >= 0 && at <= (deadlineOf[person] as number)) this.#add(this.#onTime, wave, run);
			this.#add(this.#byDay, this.#placeOf(at), run);
		}
		this.#finish[run] = last;
		this.#visits += simulation.visits;
	}

	#add(rows: Int32Array, row: number, run: number): void {
		const index = row * this.#runs + run;
		rows[index] = (rows[index] as number) + 1;
	}

	/** The place of the day on which somebody was done, or of the last one before it with a desk. */
	#placeOf(at: number): number {
		const day = this.#dayOf(at);
		const exact = this.#placeOfDay.get(day);
		if (exact !== undefined) return exact;
		const later = this.#puzzle.days.findIndex((one) => one > day);
		return later < 0 ? this.#puzzle.days.length - 1 : Math.max(0, later - 1);
	}

	/** Done at midnight is done on the day that ends then. */
	#dayOf(at: number): EpochDay {
		return this.#puzzle.model.zone.dayAt((at - 1) as Instant);
	}

	sum(runs: number): Omit<Forecast, 'runs' | 'seed'> {
		const { model, people, days } = this.#puzzle;
		const finish = this.#finish.slice(0, runs).sort();
		const dateAt = (share: number): LocalDate | null => {
			const at = quantileOf(finish, share);
			return Number.isFinite(at) ? dateOf(this.#dayOf(at)) : null;
		};
		return {
			finish: { p50: dateAt(0.5), p80: dateAt(0.8), p95: dateAt(0.95) },
			waves: model.rollout.enrollment.waves.map(({ id }, place) => this.#waveForecast(id, place, runs)),
			visits: { mean: people.length === 0 ? 0 : this.#visits / (runs * people.length) },
			days: days.map((day, place) => ({ date: dateOf(day), ...this.#enrolledBy(place, runs) }))
		};
	}

	#waveForecast(wave: string, place: number, runs: number): WaveForecast {
		const before = this.#before[place] as number;
		const people = before + countOf(this.#puzzle, (person) => person.wave === wave, 'to-book');
		const counts = Float64Array.from(this.#rowOf(this.#onTime, place, runs), (count) => count + before);
		const all = counts.reduce((sum, count) => sum + (count === people ? 1 : 0), 0);
		return { wave, people, enrolledOnTime: spreadOf(counts), allOnTime: all / runs };
	}

	/** Rows are summed from the first day on, so the days must be asked for in order. */
	#enrolledBy(place: number, runs: number): Spread {
		if (place > 0) {
			for (let run = 0; run < runs; run++) {
				const index = place * this.#runs + run;
				this.#byDay[index] = (this.#byDay[index] as number) + (this.#byDay[index - this.#runs] as number);
			}
		}
		const before = countOf(this.#puzzle, () => true, 'enrolled');
		return spreadOf(Float64Array.from(this.#rowOf(this.#byDay, place, runs), (count) => count + before));
	}

	#rowOf(rows: Int32Array, row: number, runs: number): Int32Array {
		return rows.subarray(row * this.#runs, row * this.#runs + runs);
	}
}

function countOf(
	{ model }: ForecastPuzzle,
	isMeant: (person: Rollout['people'][number]) => boolean,
	standing: 'to-book' | 'enrolled'
): number {
	return model.rollout.people.filter((person) => model.standings.get(person.id) === standing && isMeant(person)).length;
}

function spreadOf(counts: Float64Array): Spread {
	const sorted = counts.slice().sort();
	return {
		mean: counts.reduce((sum, count) => sum + count, 0) / counts.length,
		p10: quantileOf(sorted, 0.1),
		p50: quantileOf(sorted, 0.5),
		p90: quantileOf(sorted, 0.9)
	};
}
