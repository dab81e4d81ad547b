import { type EpochDay, epochDayOf } from '../calendar/local-date';
import type { SpanSet } from '../calendar/spans';
import type { Assignment, DoorGroup, Rollout, Schedule } from '../document/schema';
import { remembered } from '../kernel/remembered';
import type { Building } from './building';
import type { CellPatterns } from './cell-patterns';

/**
 * What assignments give, told apart by content and not by name, so that a later state of the same rollout finds again what
 * was worked out for an earlier one.
 *
 * The idea: schedules are numbered by what they do in each cell, door groups by their doors, assignments by both and their
 * dates. Equal numbers mean equal access whatever ids, names and order have become; whoever remembers a result under such
 * numbers may use it as long as the cells and the building are the same. Our own.
 */

/** A schedule as it runs: its pattern in each cell, and the number of that. */
export interface ScheduleContent {
	readonly number: number;
	readonly patterns: Int32Array;
}

/** Doors (by place) that a group holds, and when they open. */
export interface EntryContent {
	/** The number of the doors and the schedule together. */
	readonly number: number;
	readonly doors: readonly number[];
	readonly schedule: ScheduleContent;
}

/** What an assignment gives. */
export interface AssignmentContent {
	readonly number: number;
	/** One for each entry of the profile, in an order of their own. */
	readonly entries: readonly EntryContent[];
	/** First and last date in force; infinite where there is none. */
	readonly from: number;
	readonly until: number;
}

interface DoorsContent {
	readonly number: number;
	readonly doors: readonly number[];
}

/** So many numbers may be given before everything begins anew: each change of a schedule gives a few. */
const mostNumbers = 20_000;

export class Contents {
	readonly #numbers: Map<string, number>;
	readonly #schedules = new Map<Schedule, ScheduleContent>();
	readonly #doorGroups = new Map<DoorGroup, DoorsContent>();
	readonly #byAssignment: readonly AssignmentContent[];
	readonly #scheduleById: ReadonlyMap<string, Schedule>;

	/**
	 * `openSpans` gives when a schedule is open. `before`: the contents of an earlier state with the same cells and the same
	 * building; its schedules are taken over where they are the same objects, if `areHolidaysSame`.
	 */
	constructor(
		rollout: Rollout,
		building: Building,
		cells: CellPatterns,
		openSpans: (scheduleId: string) => SpanSet,
		before?: { readonly contents: Contents; readonly areHolidaysSame: boolean }
	) {
		this.#numbers = before ? before.contents.#numbers : new Map<string, number>();
		this.#scheduleById = new Map(rollout.schedules.map((schedule) => [schedule.id, schedule]));
		const groupById = new Map(rollout.doorGroups.map((group) => [group.id, group]));
		const profileById = new Map(rollout.accessProfiles.map((profile) => [profile.id, profile]));
		const scheduleOf = (schedule: Schedule) =>
			remembered(this.#schedules, schedule, () => {
				const known = before?.areHolidaysSame ? before.contents.#schedules.get(schedule) : undefined;
				if (known) return known;
				const patterns = cells.of(openSpans(schedule.id));
				return { number: this.numberOf(`schedule ${patterns.join()}`), patterns };
			});
		const doorsOf = (group: DoorGroup) =>
			remembered(this.#doorGroups, group, () => {
				const known = before ? before.contents.#doorGroups.get(group) : undefined;
				if (known) return known;
				const doors = [...new Set(group.doors)].map((id) => building.doorPlaceById.get(id) as number);
				doors.sort((a, b) => a - b);
				return { number: this.numberOf(`doors ${doors.join()}`), doors };
			});
		const entriesByProfile = new Map<string, readonly EntryContent[]>();
		const entriesOf = (profile: string) =>
			remembered(entriesByProfile, profile, () =>
				(profileById.get(profile)?.entries ?? [])
					.map((entry) => {
						const { number, doors } = doorsOf(groupById.get(entry.doorGroup) as DoorGroup);
						const schedule = scheduleOf(this.#scheduleById.get(entry.schedule) as Schedule);
						return { number: this.numberOf(`entry ${number} ${schedule.number}`), doors, schedule };
					})
					.sort((a, b) => a.number - b.number)
			);
		this.#byAssignment = rollout.assignments.map(({ accessProfile, from, until }: Assignment) => {
			const entries = entriesOf(accessProfile);
			const text = `assignment ${entries.map(({ number }) => number).join()} ${from} ${until}`;
			return { number: this.numberOf(text), entries, from: dayOr(from, -Infinity), until: dayOr(until, Infinity) };
		});
	}

	/** True when so many numbers were given that a later state had better begin anew. */
	get isFull(): boolean {
		return this.#numbers.size > mostNumbers;
	}

	/** A number for a text: the same in all states that share their numbers. */
	numberOf(text: string): number {
		return remembered(this.#numbers, text, () => this.#numbers.size);
	}

	/** What the assignment at a place gives. */
	assignment(place: number): AssignmentContent {
		return this.#byAssignment[place] as AssignmentContent;
	}

	/** The schedules that some assignment gives, each content once. */
	schedules(): readonly ScheduleContent[] {
		return [...new Map([...this.#schedules.values()].map((one) => [one.number, one])).values()];
	}
}

function dayOr(date: Assignment['from'], otherwise: number): EpochDay | number {
	return date === null ? otherwise : epochDayOf(date);
}
