/**
 * The least value that at least the given share of the numbers do not exceed (the nearest-rank quantile). `sorted` is
 * ascending and not empty; `share` lies in (0, 1].
 */
export function quantileOf(sorted: ArrayLike<number>, share: number): number {
	if (sorted.length === 0) throw new RangeError('no numbers');
	const rank = Math.ceil(share * sorted.length - 1e-9);
	return sorted[Math.min(Math.max(rank, 1), sorted.length) - 1] as number;
}
