import type { Board, Lane } from './board';
import { type ExactPlan, ExactSearch, isBetter } from './exact';
import type { Admits } from './exact-bins';

/** Pairs of sets that all splits of a question together may cost, and the most splits. */
const mostPairs = 4e8;
const mostSplits = 400;

/** A minute at which somebody is asked not to be away. */
interface Ban {
	readonly person: number;
	/** Instant. */
	readonly at: number;
}

interface Node {
	readonly bans: readonly Ban[];
	readonly plan: ExactPlan;
}

/**
 * The best plan for the people of an empty board, away-limits included; undefined where the puzzle is too large to be sure of it.
 * Best first: a plan is asked for without regard to limits; where too many of a department are away at some minute, one of them
 * must not be away then, and each of them is tried. The first plan that keeps all limits is the best.
 */
export function exactPlan(board: Board, people: readonly number[], isOver: () => boolean): ExactPlan | undefined {
	const search = ExactSearch.for(board, people);
	if (!search) return undefined;
	const open: Node[] = [{ bans: [], plan: search.best() }];
	for (let splits = 0; splits < mostSplits && splits * search.pairs < mostPairs && !isOver(); splits++) {
		const node = takeBest(open);
		if (!node) return undefined;
		const crowd = tooManyAway(board, node.plan);
		if (!crowd) return { ...node.plan, fewestSessions: fewestOf([...open, node], node.plan.goal.booked) };
		for (const person of crowd.people) {
			const bans = [...node.bans, { person, at: crowd.at }];
			open.push({ bans, plan: search.best(admitting(board, bans)) });
		}
	}
	return undefined;
}

/** Fewest sessions for so many people over all that is still open: what is open holds every plan. */
function fewestOf(open: readonly Node[], booked: number): number {
	return open
		.filter(({ plan }) => plan.goal.booked === booked)
		.reduce((least, { plan }) => Math.min(least, plan.fewestSessions), Infinity);
}

function takeBest(open: Node[]): Node | undefined {
	let best = 0;
	for (let index = 1; index < open.length; index++) {
		if (isBetter((open[index] as Node).plan.goal, (open[best] as Node).plan.goal)) best = index;
	}
	return open.splice(best, 1)[0];
}

function admitting(board: Board, bans: readonly Ban[]): Admits {
	return (person, station, slot) =>
		bans.every((ban) => {
			if (ban.person !== person) return true;
			const { from, to } = awaySpan(board, person, station, slot);
			return ban.at < from || to <= ban.at;
		});
}

function awaySpan(board: Board, person: number, station: number, slot: number): { from: number; to: number } {
	const kind = board.kindOf(person);
	const at = board.instance.lattices[station]?.at[slot] as number;
	const walk = kind.walks[station] as number;
	return { from: at - walk, to: at + kind.minutes * 60 + walk };
}

/** A minute at which more of a department are away than may be, and who of the plan is; undefined when there is none. */
function tooManyAway(board: Board, plan: ExactPlan): { at: number; people: number[] } | undefined {
	const { instance } = board;
	for (const [limit, { maxAway }] of instance.limits.entries()) {
		const away = plan.bookings
			.filter(({ person }) => board.kindOf(person).limit === limit)
			.map(({ person, lane, slot }) => ({
				person,
				...awaySpan(board, person, (board.lanes[lane] as Lane).station, slot)
			}))
			.filter(({ from, to }) => from < to);
		const standing = instance.standing
			.filter((one) => one.limit === limit)
			.map(({ from, to, walk }) => ({ person: -1, from: from - walk, to: to + walk }));
		const all = [...away, ...standing];
		for (const { from: at } of all) {
			const then = all.filter(({ from, to }) => from <= at && at < to);
			if (then.length > maxAway) return { at, people: then.flatMap(({ person }) => (person >= 0 ? [person] : [])) };
		}
	}
	return undefined;
}
