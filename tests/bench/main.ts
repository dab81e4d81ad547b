import { textTable } from '../../src/lib/core/kernel/text-table';
import type { Bench, Figure, FigureTable } from './bench';

const benches = Object.values(import.meta.glob<{ default: Bench }>('./*.bench.ts', { eager: true }))
	.map((module) => module.default)
	.sort((a, b) => (a.name < b.name ? -1 : 1));
const words = process.argv.slice(2);
const isLong = words.includes('--long');
const wanted = words.filter((word) => word !== '--long');

for (const bench of benches) {
	if (wanted.length > 0 && !wanted.includes(bench.name)) continue;
	process.stdout.write(`\n${bench.title}\n\n`);
	const found = await bench.run({ isLong });
	const { columns, rows } = 'rows' in found ? found : tableOf(found);
	process.stdout.write(`${textTable(columns, rows)}\n`);
}
const megabytes = Math.round(process.memoryUsage.rss() / 1e6);
process.stdout.write(`\nNode ${process.version}, ${megabytes} MB in use at the end.\n`);

function tableOf(figures: readonly Figure[]): FigureTable {
	return {
		columns: ['what', 'ours', 'beside', 'note'].map((heading) => ({ heading })),
		rows: figures.map(({ what, ours, beside, note = '' }) => [what, ours, beside, note])
	};
}
