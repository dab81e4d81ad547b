import { type Timetable, type TimetableBooking, timetable } from '$lib/charts/timetable';
import { type Spot, type Step, columnOf, fittingStarts, nextFitting, stepped } from '$lib/charts/timetable-moves';
import { clockText } from '$lib/core/calendar/stretch';
import { type DayBooking, type DayDesk, DayJudge, type Waiting } from './day-desk';

/** Somebody who was picked up, and where they are held now. */
export interface Held {
	readonly person: string;
	readonly name: string;
	readonly minutes: number;
	/** Where they came from; null for somebody who was not booked. */
	readonly from: { readonly date: string; readonly spot: Spot } | null;
	readonly spot: Spot;
	/** Every rule that would be broken there. */
	readonly problems: readonly string[];
}

/** What the mover asks of the page. */
export interface MoverHost {
	/** The desk of another date. */
	desk(date: string): Promise<DayDesk>;
	/** Saves where somebody was put; gives why it was refused, or null when it is done. */
	save(move: { person: string; station: string; lane: number; start: string }, date: string): Promise<string | null>;
}

/**
 * Moving bookings about in a timetable: who is held, where, and what the rules say to it. Nothing is saved before somebody is
 * dropped where every rule is kept.
 */
export class TimetableMover {
	held = $state.raw<Held | null>(null);
	/** What just happened, for those who listen. */
	said = $state('');
	isSaving = $state(false);
	/** True from a saved move to the next time somebody is picked up. */
	hasSaved = $state(false);
	/** Another date than that of the page, while somebody is carried there. */
	#visited = $state.raw<DayDesk | null>(null);
	#own = $state.raw<DayDesk>() as DayDesk;
	readonly desk: DayDesk = $derived.by(() => this.#visited ?? this.#own);
	readonly day: Timetable<TimetableBooking> = $derived.by(() => timetable(this.desk.stations, this.desk.bookings));
	readonly #host: MoverHost;
	#judge: DayJudge | undefined;
	#judged: DayDesk | undefined;
	/** From where somebody is carried to other dates. */
	#home: DayDesk | undefined;

	constructor(desk: DayDesk, host: MoverHost) {
		this.#own = desk;
		this.#host = host;
	}

	/** Takes the page's newest state over; whoever is held is put back when it is another date. */
	renew(desk: DayDesk): void {
		if (desk === this.#own) return;
		this.#own = desk;
		this.#visited = null;
		this.#judge = undefined;
		if (this.held && !this.isSaving) this.#hold(this.held, this.held.spot);
	}

	get judge(): DayJudge {
		if (!this.#judge || this.#judged !== this.desk) {
			const home = this.#home;
			this.#judge = new DayJudge(
				this.desk,
				this.held && home && home !== this.desk ? { person: this.held.person, pared: home.pared } : undefined
			);
			this.#judged = this.desk;
		}
		return this.#judge;
	}

	/** Starts in the lane of the held one at which every rule would be kept. */
	get fits(): readonly number[] {
		const { held, day, judge } = this;
		if (!held) return [];
		return fittingStarts(day, held.spot, held.minutes, judge.gridMinutes, (spot) => this.#isFine(spot));
	}

	pickUp(booking: DayBooking): void {
		const { person, name, station, lane, start, minutes } = booking;
		const spot = { station, lane, start };
		this.#take({ person, name, minutes, from: { date: this.desk.date, spot } }, spot);
		const how = 'Arrow keys move, Enter puts down, Escape puts back.';
		this.said = `${name} picked up. ${this.#where()}. ${how}`;
	}

	/** Picks somebody up who has no booking: at the first place where they may stand, else at the first there is. */
	pickUpWaiting({ person, name, minutes }: Waiting): void {
		const first = this.day.columns[0];
		if (!first) return;
		const start = first.open[0]?.from ?? this.day.from;
		this.#take({ person, name, minutes, from: null }, { station: first.station.id, lane: first.lane, start });
		const fitting = this.day.columns
			.flatMap(({ station, lane }) => {
				const at = { station: station.id, lane };
				const grid = this.judge.gridMinutes;
				const found = fittingStarts(this.day, at, minutes, grid, (spot) => this.#isFine(spot))[0];
				return found === undefined ? [] : [{ ...at, start: found }];
			})
			.sort((a, b) => a.start - b.start)[0];
		if (fitting) this.moveTo(fitting);
		this.said = `${name} picked up. ${this.#where()}. ${this.#verdict()}`;
	}

	step(step: Step): void {
		const { held, day, judge } = this;
		if (!held) return;
		const next = stepped(day, held.spot, held.minutes, judge.gridMinutes, step);
		if (next === held.spot) this.said = 'No further that way.';
		else this.moveTo(next);
	}

	/** To the next place in the lane where every rule is kept. */
	leap(step: 'earlier' | 'later'): void {
		const { held, day, judge } = this;
		if (!held) return;
		const next = nextFitting(day, held.spot, held.minutes, judge.gridMinutes, step, (spot) => this.#isFine(spot));
		if (next) this.moveTo(next);
		else this.said = `Nothing ${step} in this lane keeps every rule.`;
	}

	moveTo(spot: Spot): void {
		const { held } = this;
		if (!held || this.isSaving) return;
		const { station, lane, start } = held.spot;
		if (station === spot.station && lane === spot.lane && start === spot.start) return;
		this.#hold(held, spot);
		this.said = `${this.#where()}. ${this.#verdict()}`;
	}

	/** Carries the held one to another date. */
	async carry(date: string): Promise<void> {
		const { held } = this;
		if (!held || this.isSaving || date === this.desk.date) return;
		this.#home ??= this.desk;
		const desk = date === this.#own.date ? this.#own : await this.#host.desk(date);
		if (this.held?.person !== held.person) return;
		this.#visited = desk === this.#own ? null : desk;
		const isHere = columnOf(this.day, held.spot) >= 0;
		const first = this.day.columns[0];
		const spot = isHere || !first ? held.spot : { ...held.spot, station: first.station.id, lane: first.lane };
		this.#hold(held, spot);
		this.said = `${desk.date}. ${this.#where()}. ${this.#verdict()}`;
	}

	/** The date before or after that of the desk, on which a station opens; undefined where there is none. */
	dateBeside(by: 1 | -1): string | undefined {
		return this.desk.dates[this.desk.dates.indexOf(this.desk.date) + by];
	}

	putBack(): void {
		const { held } = this;
		if (!held || this.isSaving) return;
		this.said = held.from ? `${held.name} is back where they were.` : `${held.name} stays without a booking.`;
		this.#letGo();
	}

	/** Saves where the held one is, if every rule is kept there; else says why not, and holds on. */
	async drop(): Promise<void> {
		const { held } = this;
		if (!held || this.isSaving) return;
		if (held.problems.length > 0) {
			this.said = `Not put down. ${this.#verdict()}`;
			return;
		}
		const { from, spot } = held;
		if (from && from.date === this.desk.date && isSameSpot(from.spot, spot)) return this.putBack();
		const { start } = this.judge.bookingAt(held.person, held.minutes, spot);
		this.isSaving = true;
		const where = this.#where();
		const refusal = await this.#host.save(
			{ person: held.person, station: spot.station, lane: spot.lane, start },
			this.desk.date
		);
		this.isSaving = false;
		this.hasSaved = refusal === null;
		this.said = refusal === null ? `Saved: ${held.name}, ${where}.` : `Not saved. ${refusal}`;
		this.#letGo();
	}

	#take(who: Omit<Held, 'spot' | 'problems'>, spot: Spot): void {
		if (this.isSaving) return;
		this.hasSaved = false;
		this.#home = this.desk;
		this.#hold(who, spot);
	}

	#letGo(): void {
		this.held = null;
		this.#visited = null;
		this.#home = undefined;
	}

	#hold({ person, name, minutes, from }: Omit<Held, 'spot' | 'problems'>, spot: Spot): void {
		this.held = { person, name, minutes, from, spot, problems: [] };
		this.held = { ...this.held, problems: this.judge.problemsAt(person, minutes, spot) };
	}

	#isFine(spot: Spot): boolean {
		return this.held !== null && this.judge.problemsAt(this.held.person, this.held.minutes, spot).length === 0;
	}

	#where(): string {
		const { held, day } = this;
		if (!held) return '';
		const column = day.columns[columnOf(day, held.spot)];
		return `${clockText(held.spot.start)}, ${column?.station.name ?? held.spot.station}, lane ${held.spot.lane}`;
	}

	#verdict(): string {
		return this.held?.problems.length === 0 ? 'Every rule is kept.' : (this.held?.problems.join(' ') ?? '');
	}
}

function isSameSpot(a: Spot, b: Spot): boolean {
	return a.station === b.station && a.lane === b.lane && a.start === b.start;
}
