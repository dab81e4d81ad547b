/**
 * Rows as aligned text: a header, a line, the rows; columns separated by two spaces. Numbers are set to the right.
 */
export function textTable(header: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
	const widths = header.map((title, column) =>
		Math.max(title.length, ...rows.map((row) => String(row[column] ?? '').length))
	);
	const isNumeric = header.map((_, column) => rows.length > 0 && rows.every((row) => typeof row[column] === 'number'));
	const line = (cells: readonly (string | number)[]) =>
		cells
			.map((cell, column) => {
				const width = widths[column] ?? 0;
				return isNumeric[column] ? String(cell).padStart(width) : String(cell).padEnd(width);
			})
			.join('  ')
			.trimEnd();
	return [line(header), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line)].join('\n');
}
