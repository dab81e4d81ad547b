import { type Stretch, clockText, stretch } from '../../calendar/stretch';

/** A stretch of a day in minutes, as `Stretch`, without its text: `to` may lie beyond 1440. */
export type Minutes = Pick<Stretch, 'from' | 'to'>;

/** As a stretch is written. */
export function stretchText({ from, to }: Minutes): string {
	return `${clockText(from)}-${to === 1440 ? '24:00' : clockText(to)}`;
}

/**
 * A list of stretches with minutes added: joined with what they overlap or touch, so far as the whole stays within 24 hours;
 * else only what is missing is added. What is not joined stays as it is written.
 */
export function withMinutes(list: readonly string[], added: readonly Minutes[]): string[] {
	let present: Minutes[] = list.map(stretch);
	for (const piece of added) {
		if (present.some(({ from, to }) => from <= piece.from && piece.to <= to)) continue;
		const near = present.filter(({ from, to }) => from <= piece.to && piece.from <= to);
		const joined = {
			from: Math.min(piece.from, ...near.map(({ from }) => from)),
			to: Math.max(piece.to, ...near.map(({ to }) => to))
		};
		if (joined.to - joined.from <= 1440) present = [...present.filter((one) => !near.includes(one)), joined];
		else present.push(...withoutMinutes(piece, near));
	}
	const known = new Map(list.map((text) => [text, text]));
	return present
		.sort((a, b) => a.from - b.from || a.to - b.to)
		.map((one) => known.get(stretchText(one)) ?? stretchText(one));
}

/** What of a piece lies in none of the others. */
function withoutMinutes(piece: Minutes, others: readonly Minutes[]): Minutes[] {
	return others.reduce<Minutes[]>(
		(rest, { from, to }) =>
			rest.flatMap((part) =>
				[
					{ from: part.from, to: Math.min(part.to, from) },
					{ from: Math.max(part.from, to), to: part.to }
				].filter((left) => left.from < left.to)
			),
		[piece]
	);
}

/** A list in which stretches that overlap are one, so far as that stays within 24 hours; the same minutes. */
export function joinedList(list: readonly string[]): string[] {
	const joined: Minutes[] = [];
	for (const one of list.map(stretch).sort((a, b) => a.from - b.from || b.to - a.to)) {
		const last = joined.at(-1);
		const to = last ? Math.max(last.to, one.to) : one.to;
		if (last && one.from < last.to && to - last.from <= 1440) joined[joined.length - 1] = { from: last.from, to };
		else joined.push(one);
	}
	return trimmedList(joined.map(stretchText));
}

/** A list in which each stretch ends where the next begins at the latest, and what others hold whole is gone. */
export function trimmedList(list: readonly string[]): string[] {
	const sorted = list.map(stretch).sort((a, b) => a.from - b.from || b.to - a.to);
	const kept = sorted.filter(
		({ from, to }, place) => !sorted.some((other, at) => at < place && other.from <= from && to <= other.to)
	);
	return kept.map(({ from, to }, place) => {
		const next = kept[place + 1];
		return stretchText({ from, to: next ? Math.min(to, next.from) : to });
	});
}
