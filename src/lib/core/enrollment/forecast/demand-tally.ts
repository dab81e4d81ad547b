/**
 * Rebookings of many futures: how many appointments and minutes fall due by a group's date, in a week and those after it together.
 * Groups are ordered by their date, and whoever is due earlier counts for the later dates too, since they need the same time.
 */
export class DemandTally {
	/** Futures that are closed. */
	runs = 0;
	readonly #groups: number;
	readonly #weeks: number;
	readonly #stations: number;
	readonly #most: number;
	/** Of the future being played: by group and week, and by group and station. */
	readonly #now: { readonly appointments: Int32Array; readonly minutes: Float64Array };
	readonly #nowAt: { readonly appointments: Int32Array; readonly minutes: Float64Array };
	readonly #nowLate: Int32Array;
	/** One row of futures for each group and week, the weeks after it included; and for each group and station. */
	readonly #tails: { readonly appointments: Int32Array; readonly minutes: Float64Array };
	readonly #at: { readonly appointments: Int32Array; readonly minutes: Float64Array };
	readonly #late: Float64Array;
	readonly #noneLate: Int32Array;

	constructor(groups: number, weeks: number, stations: number, most: number) {
		[this.#groups, this.#weeks, this.#stations, this.#most] = [groups, weeks, stations, most];
		const rows = (count: number) => ({ appointments: new Int32Array(count), minutes: new Float64Array(count) });
		this.#now = rows(groups * weeks);
		this.#nowAt = rows(groups * stations);
		this.#tails = rows(groups * weeks * most);
		this.#at = rows(groups * stations * most);
		this.#nowLate = new Int32Array(groups);
		this.#late = new Float64Array(groups);
		this.#noneLate = new Int32Array(groups);
	}

	/** An appointment needed by somebody of a group, that can be held in a week at the earliest. */
	add(group: number, week: number, station: number, minutes: number): void {
		raise(this.#now, group * this.#weeks + week, 1, minutes);
		raise(this.#nowAt, group * this.#stations + station, 1, minutes);
	}

	/** Somebody of a group is late, whatever is kept free. */
	addLate(group: number): void {
		this.#nowLate[group] = (this.#nowLate[group] as number) + 1;
	}

	/** Ends a future: what was added is counted, and the next begins with nothing. */
	closeRun(): void {
		for (let group = 0; group < this.#groups; group++) {
			// Those due earlier first, so that the sums grow from group to group.
			if (group > 0) {
				addRow(this.#now, group, this.#weeks);
				addRow(this.#nowAt, group, this.#stations);
			}
			let [appointments, minutes] = [0, 0];
			for (let week = this.#weeks - 1; week >= 0; week--) {
				const index = group * this.#weeks + week;
				appointments += this.#now.appointments[index] as number;
				minutes += this.#now.minutes[index] as number;
				raise(this.#tails, index * this.#most + this.runs, appointments, minutes);
			}
			for (let station = 0; station < this.#stations; station++) {
				const index = group * this.#stations + station;
				const row = index * this.#most + this.runs;
				raise(this.#at, row, this.#nowAt.appointments[index] as number, this.#nowAt.minutes[index] as number);
			}
			const late = this.#nowLate[group] as number;
			this.#late[group] = (this.#late[group] as number) + late;
			if (late === 0) this.#noneLate[group] = (this.#noneLate[group] as number) + 1;
		}
		for (const { appointments, minutes } of [this.#now, this.#nowAt]) {
			appointments.fill(0);
			minutes.fill(0);
		}
		this.#nowLate.fill(0);
		this.runs++;
	}

	/** Mean number of appointments needed by a group's date. */
	meanOf(group: number): number {
		const row = this.#row(this.#tails.appointments, group * this.#weeks);
		return row.reduce((sum, one) => sum + one, 0) / this.runs;
	}

	/** People of the very group who are late on average, and the share of futures in which none is. */
	lateOf(group: number): { mean: number; none: number } {
		return { mean: (this.#late[group] as number) / this.runs, none: (this.#noneLate[group] as number) / this.runs };
	}

	/** Appointments and minutes of every future at a station, each sorted. */
	atStation(group: number, station: number): { appointments: Int32Array; minutes: Float64Array } {
		const index = group * this.#stations + station;
		return {
			appointments: this.#row(this.#at.appointments, index).slice().sort(),
			minutes: this.#row(this.#at.minutes, index).slice().sort()
		};
	}

	/**
	 * For each of the first so many weeks what it and those after it need, so that in at least a share of the futures every one of
	 * these sums suffices: the same rank of each, and the least rank that does it, found by halving.
	 */
	tailsFor(group: number, weeks: number, confidence: number): { appointments: number; minutes: number }[] {
		const rows = Array.from({ length: weeks }, (_, week) => {
			const [appointments, minutes] = [this.#tails.appointments, this.#tails.minutes].map((all) =>
				this.#row(all, group * this.#weeks + week)
			) as [Int32Array, Float64Array];
			return { appointments, minutes, sorted: [appointments.slice().sort(), minutes.slice().sort()] as const };
		});
		const at = (rank: number) =>
			rows.map(({ sorted: [appointments, minutes] }) => ({
				appointments: appointments[rank - 1] as number,
				minutes: minutes[rank - 1] as number
			}));
		const needed = Math.max(1, Math.ceil(confidence * this.runs - 1e-9));
		const suffices = (rank: number): boolean => {
			const tails = at(rank);
			let count = 0;
			for (let run = 0; run < this.runs; run++) {
				const fits = rows.every(
					(row, week) =>
						(row.appointments[run] as number) <= (tails[week]?.appointments as number) &&
						(row.minutes[run] as number) <= (tails[week]?.minutes as number)
				);
				if (fits) count++;
			}
			return count >= needed;
		};
		let [low, high] = [needed, this.runs];
		while (low < high) {
			const middle = (low + high) >>> 1;
			if (suffices(middle)) high = middle;
			else low = middle + 1;
		}
		return at(low);
	}

	#row<Row extends Int32Array | Float64Array>(all: Row, index: number): Row {
		return all.subarray(index * this.#most, index * this.#most + this.runs) as Row;
	}
}

interface Rows {
	readonly appointments: Int32Array;
	readonly minutes: Float64Array;
}

function raise({ appointments, minutes }: Rows, index: number, count: number, time: number): void {
	appointments[index] = (appointments[index] as number) + count;
	minutes[index] = (minutes[index] as number) + time;
}

/** Adds the row of the group before. */
function addRow(rows: Rows, group: number, length: number): void {
	for (let place = group * length; place < (group + 1) * length; place++) {
		raise(rows, place, rows.appointments[place - length] as number, rows.minutes[place - length] as number);
	}
}
