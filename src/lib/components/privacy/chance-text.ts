/** A chance as a share where it is large, as one in so many where it is small. */
export function chanceText(chance: number): string {
	if (chance <= 0) return 'none';
	if (chance >= 0.01) return `${(100 * chance).toFixed(1)} %`;
	return `1 in ${Math.round(1 / chance).toLocaleString('en-US')}`;
}

/** Where a chance stands on a scale of powers of ten, 0 (one in `10 ** decades`, or less) to 1 (certain). */
export function onScale(chance: number, decades: number): number {
	return chance <= 0 ? 0 : Math.max(0, Math.min(1, 1 + Math.log10(chance) / decades));
}
