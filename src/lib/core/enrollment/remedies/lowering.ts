import type { Pulled } from './levers';
import type { Trials } from './trial';

/** Levers that are enough, and who is booked by them for sure. */
export interface Enough {
	readonly pulled: readonly Pulled[];
	readonly sure: ReadonlySet<string>;
}

/**
 * Lets levers go that are not needed, the dearest first, and lowers what is left; the first `kept` stay. Undefined where it does not
 * hold when planned from the beginning. In a hurry what is there is taken as it is.
 */
export function lowered(
	trials: Trials,
	kept: number,
	pulled: readonly Pulled[],
	people: ReadonlySet<string>,
	isHurried: () => boolean = () => false
): Enough | undefined {
	let now = [...pulled];
	const isEnough = (some: readonly Pulled[]): boolean => (trials.of(some, people)?.sure.size ?? 0) > 0;
	const byCost = pulled.slice(kept).sort((a, b) => b.lever.cost(b.amount) - a.lever.cost(a.amount));
	for (const { lever } of byCost) {
		if (isHurried()) break;
		const rest = now.filter((other) => other.lever !== lever);
		if (rest.length > 0 && isEnough(rest)) {
			now = rest;
			continue;
		}
		const at = now.findIndex((other) => other.lever === lever);
		let [low, high] = [1, now[at]?.amount ?? 1];
		const precision = trials.isLarge ? Math.max(1, Math.floor(high / 12)) : 1;
		while (low < high && high - low >= precision && !isHurried()) {
			const middle = (low + high) >>> 1;
			if (isEnough(now.with(at, { lever, amount: middle }))) high = middle;
			else low = middle + 1;
		}
		now = now.with(at, { lever, amount: high });
	}
	return confirmed(trials, now, people);
}

/**
 * What stands at the end of a search: the whole is planned from the beginning, with several seeds, and an amount is raised where one
 * of the plans does not find room for all. A remedy that is just enough for one seed would fail for whoever plans with another.
 */
export function confirmed(trials: Trials, pulled: readonly Pulled[], people: ReadonlySet<string>): Enough | undefined {
	let amounts = pulled;
	for (let round = 0; round < 8; round++) {
		const sure = sureWithAllSeeds(trials, amounts, people);
		if (sure) return { pulled: amounts, sure };
		const more = raised(amounts);
		if (!more || trials.isOver) return undefined;
		amounts = more;
	}
	return undefined;
}

const seeds = { usual: [1, 2, 3], large: [1, 2] };

function sureWithAllSeeds(
	trials: Trials,
	pulled: readonly Pulled[],
	people: ReadonlySet<string>
): ReadonlySet<string> | undefined {
	let sure: ReadonlySet<string> | undefined;
	for (const seed of trials.isLarge ? seeds.large : seeds.usual) {
		const its = trials.of(pulled, people, seed)?.sure;
		if (!its || its.size === 0) return undefined;
		sure = sure ? new Set([...sure].filter((id) => its.has(id))) : its;
	}
	return sure;
}

/** The lever raised for which a little more costs least; undefined where none can rise. */
function raised(pulled: readonly Pulled[]): readonly Pulled[] | undefined {
	let best: { readonly at: number; readonly amount: number; readonly price: number } | undefined;
	for (const [at, { lever, amount }] of pulled.entries()) {
		const more = Math.min(lever.most, amount + Math.max(1, Math.ceil(amount / 20)));
		const price = lever.cost(more) - lever.cost(amount);
		if (more > amount && (!best || price < best.price)) best = { at, amount: more, price };
	}
	const one = best && pulled[best.at];
	return best && one && pulled.with(best.at, { lever: one.lever, amount: best.amount });
}
