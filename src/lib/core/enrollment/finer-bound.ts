import { AwayTerms } from './away-terms';
import type { ProofSpace } from './proof-space';
import { Ascent, type Priced } from './session-ascent';
import { type SessionBound, nearly, roundedUp, standingSessions, wantedAt } from './session-bound';
import { type Filling, fillingAt } from './session-filling';
import { SessionPaths } from './session-paths';
import { type GapRoom, type SessionRoom, entriesOf, sessionRoom } from './session-room';

/**
 * A better bound of sessions than `boundSessions`, which takes longer: everybody's kind has a price of its own; a session is worth
 * no more than the dearest chain of whole bookings at starts that they may have; and being away costs a price too, so that no more
 * are away at once than may be. Better with every step.
 * @source A. M. Geoffrion, Lagrangean relaxation for integer programming (1974)
 */
export class FinerBound {
	readonly #paths: SessionPaths;
	readonly #away: AwayTerms;
	readonly #room: SessionRoom;
	readonly #people: number;
	readonly #already: number;
	readonly #known: SessionBound;
	readonly #ascent: Ascent;
	/** What a round looks at. */
	readonly #cost: number;

	/** For plans that book so many people; undefined where there are too many starts for it. */
	static of(space: ProofSpace, people: number, known: SessionBound): FinerBound | undefined {
		const away = new AwayTerms(space.instance);
		const paths = SessionPaths.of(space, away);
		return paths && new FinerBound(space, people, known, away, paths);
	}

	private constructor(space: ProofSpace, people: number, known: SessionBound, away: AwayTerms, paths: SessionPaths) {
		this.#paths = paths;
		this.#away = away;
		this.#room = sessionRoom(space, 'by kind');
		this.#people = people;
		this.#already = standingSessions(space.instance);
		this.#known = known;
		const start = [
			...this.#room.kindOf.map((kind) => known.prices[kind] as number),
			...new Array<number>(away.size).fill(0)
		];
		this.#cost =
			paths.starts + 4 * entriesOf(this.#room) + 4 * away.instants.length * space.instance.limits.length + 200;
		this.#ascent = new Ascent((prices) => this.#valueAt(prices), start);
	}

	/** Raises the bound for so much effort, or until no plan of `inUse` sessions can be bettered; what it has come to. */
	improve(inUse: number, effort: number, isOver: () => boolean): number {
		const target = inUse - this.#already - nearly;
		this.#ascent.climb(Math.ceil(effort / this.#cost), target, isOver);
		return Math.max(this.#known.fewest, this.#already + roundedUp(this.#ascent.value));
	}

	#fill(prices: readonly number[]): Filling {
		const { groups, groupOf } = this.#room;
		this.#paths.fill((kind) => prices[groupOf[kind] as number] ?? 0, this.#away.costsAt(prices, groups.length));
		return fillingAt(this.#room, prices);
	}

	#valueAt(prices: readonly number[]): Priced {
		const { groups, gaps, groupOf } = this.#room;
		const paths = this.#paths;
		const filling = this.#fill(prices);
		const wanted = wantedAt(this.#room, prices, this.#people);
		const slope = new Float64Array(groups.length + this.#away.size);
		slope.set(wanted.slope);
		const take = (group: number, people: number): number => (slope[group] = (slope[group] as number) - people);
		const away = paths.nobodyAway();
		let { value } = wanted;
		gaps.forEach(({ lanes, cost }, gap) => {
			const byPath = paths.worths[gap] as number;
			const worth = Math.min(byPath, filling.worthOf(gap));
			if (worth <= cost) return;
			value += lanes * (cost - worth);
			if (byPath === worth) paths.visit(gap, lanes, away, (kind) => take(groupOf[kind] as number, lanes));
		});
		filling.forEach((group, gap, people) => {
			const { lanes, cost } = gaps[gap] as GapRoom;
			const worth = filling.worthOf(gap);
			if (worth > cost && worth < (paths.worths[gap] as number)) take(group, people * lanes);
		});
		return { value: value - this.#away.priced(prices, groups.length, away, slope), slope };
	}
}
