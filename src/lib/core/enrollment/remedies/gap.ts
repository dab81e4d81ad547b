import type { Lever } from './lever';
import type { Pulled } from './levers';

/*
 * A proof of too little station time says how many minutes are lacking at least. Openings that add fewer cannot be enough, whatever is
 * planned, and need not be tried; this spares most trials where many people are left.
 */

/** True where a lever adds less lane time than is lacking, even at its most. */
export function isTooLittle({ adds, most }: Lever, gap: number): boolean {
	return adds !== undefined && adds(most) < gap;
}

/** The least amount of a lever that could fill a gap. */
export function leastFor({ adds, most }: Lever, gap: number): number {
	if (!adds) return 1;
	let [low, high] = [1, most];
	while (low < high) {
		const middle = (low + high) >>> 1;
		if (adds(middle) < gap) low = middle + 1;
		else high = middle;
	}
	return high;
}

/** The openings that could help most people, as many as fill the gap with a little to spare; none where all together are too few. */
export function openingsFor(levers: readonly Lever[], gap: number): Pulled[] {
	const pulled: Pulled[] = [];
	let rest = gap > 0 ? 1.05 * gap : 0;
	for (const lever of [...levers].sort((a, b) => b.reach - a.reach)) {
		if (rest <= 0) return pulled;
		if (!lever.adds) continue;
		pulled.push({ lever, amount: lever.most });
		rest -= lever.adds(lever.most);
	}
	return rest <= 0 ? pulled : [];
}
