import { type Lane, free } from '../board';
import type { Instance } from '../instance';
import type { Desk, ForecastPuzzle } from './puzzle';

/**
 * How many appointments as long as `minutes` still fit into a desk beside those of the starting plan, one after the other on the
 * grid. Only the time of the station is asked, not who could come.
 */
export function roomLeft({ board }: ForecastPuzzle, { unit, lane }: Desk, minutes: number): number {
	const { base, station } = board.lanes[lane] as Lane;
	const lattice = board.instance.lattices[station] as Instance['lattices'][number];
	const { durations, next } = board.instance;
	const steps = next[station]?.[durations.indexOf(minutes)];
	const close = lattice.runs[board.unitRun[unit] as number]?.to ?? -Infinity;
	if (!steps) return 0;
	let count = 0;
	for (let cell = board.unitFrom[unit] as number; cell < (board.unitTo[unit] as number);) {
		const end = base + (steps[cell - base] as number);
		if ((lattice.at[cell - base] as number) + minutes * 60 > close) break;
		let taken = cell;
		while (taken < end && board.cells[taken] === free) taken++;
		if (taken === end) count++;
		cell = taken === end ? end : taken + 1;
	}
	return count;
}
