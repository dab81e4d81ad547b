/** A column of a table in text: its heading, and whether its entries end at the same place (figures). */
export interface TextColumn {
	readonly heading: string;
	readonly isFigure?: boolean;
}

/**
 * A table for a terminal: columns padded to their widest entry and two spaces apart, no line longer than its text needs.
 * Width counts code points, so that a line may end ragged where a script draws characters wide.
 */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly string[])[]): string {
	const lines = [columns.map((column) => column.heading), ...rows];
	const widths = columns.map((_, index) =>
		lines.reduce((width, cells) => Math.max(width, widthOf(cells[index] ?? '')), 0)
	);
	return lines
		.map((cells) =>
			columns
				.map((column, index) => {
					const cell = cells[index] ?? '';
					const space = ' '.repeat((widths[index] ?? 0) - widthOf(cell));
					return column.isFigure === true ? space + cell : cell + space;
				})
				.join('  ')
				.trimEnd()
		)
		.join('\n');
}

function widthOf(text: string): number {
	return [...text].length;
}
