import { latticeOf, nextSlots } from '../lattice';
import type { EnrollmentModel } from '../model';

/**
 * How many appointments of so many minutes all lanes of all stations have room for, one after the other on the grid, if the stations
 * were empty. Only station time is asked: shifts, needs and away-limits may allow fewer.
 */
export function placesFor(model: EnrollmentModel, minutes: number): number {
	return model.stations.reduce((sum, ready) => {
		const lattice = latticeOf(model, ready);
		const next = nextSlots(lattice, minutes * 60);
		let count = 0;
		lattice.runs.forEach(({ to }, run) => {
			let slot = lattice.runFirst[run] as number;
			while (slot < (lattice.runFirst[run + 1] as number) && (lattice.at[slot] as number) + minutes * 60 <= to) {
				count++;
				slot = next[slot] as number;
			}
		});
		return sum + count * ready.station.lanes;
	}, 0);
}
