import type { TextColumn } from '../../src/lib/core/kernel/text-table';

/** One line of a measurement: what was done, by whom, how long it took, and what came out. */
export interface Figure {
	readonly what: string;
	readonly ours: string;
	readonly beside: string;
	readonly note?: string;
}

/** A measurement with columns of its own. */
export interface FigureTable {
	readonly columns: readonly TextColumn[];
	readonly rows: readonly (readonly string[])[];
}

export interface BenchOptions {
	/** Whether it may take many minutes: `--long`. */
	readonly isLong: boolean;
}

/** A measurement: one file `*.bench.ts` in this folder, its default export. */
export interface Bench {
	readonly name: string;
	/** What is measured, on what, against what. */
	readonly title: string;
	run(options: BenchOptions): Promise<readonly Figure[] | FigureTable>;
}

/** The median milliseconds of several runs of the same work, after one that is not counted. */
export async function medianOf(runs: number, work: () => unknown): Promise<number> {
	await work();
	const times: number[] = [];
	for (let run = 0; run < runs; run++) {
		const start = performance.now();
		await work();
		times.push(performance.now() - start);
	}
	return times.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? NaN;
}

/** Milliseconds as text: `12 ms`, `3.4 s`. */
export function timeText(milliseconds: number): string {
	return milliseconds < 1000 ? `${milliseconds.toFixed(0)} ms` : `${(milliseconds / 1000).toFixed(1)} s`;
}
