import type { AccessModel } from '../../access/model';
import type { EpochDay } from '../../calendar/local-date';
import type { SpanSet } from '../../calendar/spans';
import type { Instant } from '../../calendar/zone';

/** Part of one local date, in minutes of its wall clock: `from` 0 to 1439, `to` 1 to 1440. */
export interface DayPiece {
	readonly day: EpochDay;
	readonly from: number;
	readonly to: number;
}

/**
 * Spans as pieces of local dates, each widened to whole minutes of the wall clock, so that stretches written from them hold
 * all of the spans. In the order of time.
 */
export function dayPieces(model: AccessModel, spans: SpanSet): DayPiece[] {
	const { cells, zone } = model;
	return spans.flatMap(({ from, to }) => {
		const pieces: DayPiece[] = [];
		for (let place = cells.cellAt(from); place <= cells.cellAt(to - 1); place++) {
			const cell = cells.cells[place];
			if (!cell || cell.from >= to || cell.to <= from) continue;
			const { day } = cell;
			const isFromStart = from <= cell.from;
			const start = isFromStart ? 0 : zone.wallTimeAt(from as Instant).minute;
			let end = to >= cell.to ? 1440 : Math.max(start + 1, zone.wallTimeAt((to - 1) as Instant).minute + 1);
			// An end in an hour that the clock repeats means the first of the two: go on until it is late enough.
			while (end < 1440 && zone.instantOf({ day, minute: end }) < to) end++;
			pieces.push({ day, from: start, to: end });
		}
		return pieces;
	});
}
