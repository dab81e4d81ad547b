import type { Rollout } from '../../document/schema';
import { fixedBookings } from '../fixed';
import { EnrollmentModel } from '../model';
import type { Remedy, Shortfall } from '../shortfalls';
import type { PlannedBooking } from '../validity';
import { isTooLittle, leastFor, openingsFor } from './gap';
import type { Lever } from './lever';
import { type Pulled, changesOf, costOf, leversFor, merged } from './levers';
import { type Enough, confirmed, lowered } from './lowering';
import type { RemedyKind } from './remedy-kind';
import { likenessOf } from './presence';
import { priceOf, sumOf } from './price';
import { Trials } from './trial';
import { whyNone } from './why-none';

/**
 * What would book everybody of a shortfall, priced.
 *
 * The idea: every lever (a station open longer, one more lane and so on) is tried alone at its most, by really planning the changed
 * rollout; where it is enough, the least amount that is enough is found by halving. Where no lever of a kind is enough by itself,
 * the one that books most for its price is kept and the search goes on from there, within the kind and then among all. Levers
 * that turn out not to be needed are let go, and amounts lowered. So what is told was tried, and no amount in it can be
 * lowered alone; that no other set is cheaper is not proved. A remedy that was found for one shortfall serves every other
 * whose people it books for sure.
 */
export interface RemedyTerms {
	readonly rollout: Rollout;
	readonly bookings: readonly PlannedBooking[];
	readonly unbooked: ReadonlySet<string>;
}

/** Remedies told of one shortfall. */
const mostTold = 5;

/** Trials for one shortfall, for all of them, and for one of a rollout with many people. */
const mostTrials = { each: 160, all: 900, large: 40 };

/** A remedy, the levers that make it, and whom it books for sure. */
export interface Found {
	readonly pulled: readonly Pulled[];
	readonly cost: number;
	readonly remedy: Remedy;
	readonly sure: ReadonlySet<string>;
}

/** Looks for remedies for the shortfalls of one plan. */
export class RemedySearch {
	readonly #terms: RemedyTerms;
	readonly #model: EnrollmentModel;
	readonly #trials: Trials;
	readonly #broken: ReadonlySet<string>;
	readonly #pool: Found[] = [];
	readonly #likes = new Set<string>();
	#until = 0;
	/** Minutes that the people of the shortfall need beyond what there is. */
	#gap = 0;

	constructor(terms: RemedyTerms) {
		this.#terms = terms;
		this.#model = new EnrollmentModel(terms.rollout);
		const toBook = [...this.#model.standings.values()].filter((standing) => standing === 'to-book').length;
		this.#trials = new Trials(terms, toBook);
		const hasFixed = terms.rollout.enrollment.bookings.some(({ fixed }) => fixed);
		this.#broken = new Set(hasFixed ? fixedBookings(this.#model).broken.map(({ person }) => person) : []);
	}

	/** Says when trials are to stop. */
	hear(isOver: () => boolean): void {
		this.#trials.hear(isOver);
	}

	/** The shortfall with its remedies, the cheapest first, or with the reason why there is none. */
	mended(shortfall: Shortfall, isOver: () => boolean): Shortfall {
		this.#trials.hear(isOver);
		const people = new Set(shortfall.people);
		const known = this.#pool.filter(({ sure }) => shortfall.people.every((id) => sure.has(id)));
		const own = known.length > 0 && this.#isAlike(shortfall) ? [] : this.#search(shortfall, people);
		this.#pool.push(...own);
		const byText = new Map([...known, ...own].map((one) => [one.remedy.does, one.remedy]));
		const remedies = [...byText.values()].sort((a, b) => a.cost - b.cost || a.minutes - b.minutes).slice(0, mostTold);
		if (remedies.length > 0) return { ...shortfall, remedies };
		return { ...shortfall, remedies, noRemedy: whyNone(this.#model, shortfall, this.#broken, this.#trials.isOver) };
	}

	/** True when remedies were already looked for, for somebody like the one person of a shortfall. */
	#isAlike({ kind, people: [id] }: Shortfall): boolean {
		const person = kind === 'no-common-time' ? this.#model.peopleById.get(id ?? '') : undefined;
		if (!person) return false;
		const likeness = likenessOf(this.#model, person);
		const isKnown = this.#likes.has(likeness);
		this.#likes.add(likeness);
		return isKnown;
	}

	#search(shortfall: Shortfall, people: ReadonlySet<string>): Found[] {
		const missing = shortfall.people.filter((id) => this.#terms.unbooked.has(id));
		if (missing.length === 0 || this.#trials.isOver) return [];
		this.#isAlike(shortfall);
		const { isLarge } = this.#trials;
		const levers = leversFor(this.#model, shortfall, missing, this.#terms.unbooked, { broken: this.#broken, isLarge });
		const each = isLarge ? mostTrials.large : Math.min(mostTrials.each, mostTrials.all - this.#trials.made);
		this.#until = this.#trials.made + Math.max(each, 12);
		this.#gap = shortfall.kind === 'station-time' ? shortfall.neededMinutes - shortfall.availableMinutes : 0;
		const found: Found[] = [];
		const kinds = [...new Set(levers.map(({ kind }) => kind))].sort((a, b) => least(levers, a) - least(levers, b));
		const gains = new Map<Lever, number>();
		const always = levers.filter(({ kind }) => kind === 'let-move' && missing.some((id) => this.#broken.has(id)));
		const base = always.slice(0, missing.length).map((lever): Pulled => ({ lever, amount: 1 }));
		for (const kind of kinds) {
			const one = this.#cheapestAlone(
				base,
				levers.filter((lever) => lever.kind === kind && !always.includes(lever)),
				people,
				gains
			);
			if (one) found.push(one);
		}
		const useful = levers.filter((lever) => (gains.get(lever) ?? 0) > 0 && !found.some((one) => isOf(one, lever)));
		for (const kind of kinds) {
			const some = useful.filter((lever) => lever.kind === kind);
			if (some.length < 2 || found.some(({ pulled }) => pulled.every(({ lever }) => lever.kind === kind))) continue;
			const several = this.#together(base, some, people);
			if (several) found.push(several);
		}
		if (found.length < 2) {
			const several = this.#together(
				base,
				found.length === 0 ? levers.filter((lever) => !always.includes(lever)) : useful,
				people
			);
			if (several) found.push(several);
		}
		return found;
	}

	get #isSpent(): boolean {
		return this.#trials.isOver || this.#trials.made >= this.#until;
	}

	/** The cheapest lever that is enough by itself, lowered as far as it goes; notes how many more people each would book. */
	#cheapestAlone(
		base: readonly Pulled[],
		levers: readonly Lever[],
		people: ReadonlySet<string>,
		gains: Map<Lever, number>
	): Found | undefined {
		let best: Found | undefined;
		for (const lever of [...levers].sort((a, b) => a.cost(1) - b.cost(1))) {
			if (this.#isSpent) break;
			if (best && lever.cost(1) >= best.cost - costOf(base)) break;
			// By the proof itself it cannot be enough, and need not be tried.
			if (isTooLittle(lever, this.#gap)) {
				gains.set(lever, 1);
				continue;
			}
			const outcome = this.#trials.of([...base, { lever, amount: lever.most }], people);
			if (!outcome) continue;
			gains.set(
				lever,
				Math.max(outcome.booked - this.#terms.bookings.length, outcome.inside > this.#insideNow(people) ? 1 : 0)
			);
			if (outcome.sure.size === 0) continue;
			const one = this.#lowest(base, lever, people);
			if (one && (!best || one.cost < best.cost)) best = one;
		}
		return best;
	}

	#insideNow(people: ReadonlySet<string>): number {
		return [...people].filter((id) => !this.#terms.unbooked.has(id)).length;
	}

	/** The least amount of a lever that is enough, given that its most is. */
	#lowest(base: readonly Pulled[], lever: Lever, people: ReadonlySet<string>): Found | undefined {
		const precision = this.#trials.isLarge ? Math.max(1, Math.floor(lever.most / 24)) : 1;
		let [low, high] = [leastFor(lever, this.#gap), lever.most];
		while (low < high && high - low >= precision && !this.#isSpent) {
			const middle = (low + high) >>> 1;
			const outcome = this.#trials.of([...base, { lever, amount: middle }], people);
			if (outcome && outcome.sure.size > 0) high = middle;
			else low = middle + 1;
		}
		return this.#found(confirmed(this.#trials, [...base, { lever, amount: high }], people));
	}

	/** Pulls one lever after the other, each time the one that books most for its price, until all are booked. */
	#together(base: readonly Pulled[], levers: readonly Lever[], people: ReadonlySet<string>): Found | undefined {
		let pulled = [...base, ...(this.#trials.isLarge ? openingsFor(levers, this.#gap) : [])];
		let booked = this.#terms.bookings.length;
		const covered = pulled.length > base.length ? this.#trials.of(pulled, people) : undefined;
		if (covered && covered.sure.size > 0) {
			return this.#found(lowered(this.#trials, base.length, pulled, people, () => this.#isSpent));
		}
		if (covered) booked = Math.max(booked, covered.booked);
		else pulled = [...base];
		while (pulled.length < base.length + 8) {
			let best:
				| { readonly pulled: Pulled[]; readonly booked: number; readonly worth: number; readonly isSure: boolean }
				| undefined;
			for (const lever of levers) {
				if (this.#isSpent) return undefined;
				if (pulled.some((other) => other.lever === lever)) continue;
				const more = [...pulled, { lever, amount: lever.most }];
				const outcome = this.#trials.of(more, people);
				if (!outcome || (outcome.booked <= booked && outcome.sure.size === 0)) continue;
				const isSure = outcome.sure.size > 0;
				const worth = (isSure ? 1e9 : 0) + (1 + outcome.booked - booked) / (1 + lever.cost(Math.ceil(lever.most / 2)));
				if (!best || worth > best.worth) best = { pulled: more, booked: outcome.booked, worth, isSure };
				if (this.#trials.isLarge) break;
			}
			best ??= this.#pair(pulled, levers, people, booked);
			if (!best) return undefined;
			({ pulled, booked } = best);
			if (best.isSure) return this.#found(lowered(this.#trials, base.length, pulled, people, () => this.#isSpent));
		}
		return undefined;
	}

	/** Two levers that book more together although neither does alone. */
	#pair(pulled: readonly Pulled[], levers: readonly Lever[], people: ReadonlySet<string>, booked: number) {
		const rest = levers.filter((lever) => !pulled.some((other) => other.lever === lever));
		for (const [index, one] of rest.entries()) {
			for (const other of rest.slice(index + 1)) {
				if (this.#isSpent) return undefined;
				if (one.kind === other.kind) continue;
				const more = [...pulled, { lever: one, amount: one.most }, { lever: other, amount: other.most }];
				const outcome = this.#trials.of(more, people);
				if (!outcome || outcome.booked <= booked) continue;
				return { pulled: more, booked: outcome.booked, worth: 0, isSure: outcome.sure.size > 0 };
			}
		}
		return undefined;
	}

	/**
	 * Remedies that were found put together so that everybody of some shortfalls is booked, and those of `already` too; a shortfall for
	 * which nothing was found, or whose remedies do not go with the others, is left out.
	 */
	combined(
		shortfalls: readonly Shortfall[],
		already: ReadonlySet<string>,
		isHurried: () => boolean
	): (Found & { readonly people: ReadonlySet<string> }) | undefined {
		let people = already;
		let now: Enough = { pulled: [], sure: new Set() };
		const end = this.#trials.made + (this.#trials.isLarge ? 60 : 300);
		for (const shortfall of [...shortfalls].sort((a, b) => b.people.length - a.people.length)) {
			const wanted = new Set([...people, ...shortfall.people]);
			const known = this.#pool.filter(({ sure }) => shortfall.people.every((id) => sure.has(id)));
			if (known.length > 0 && [...wanted].every((id) => now.sure.has(id))) people = wanted;
			else {
				for (const { pulled } of known.sort((a, b) => a.cost - b.cost)) {
					if (isHurried() || this.#trials.made > end) break;
					const more = this.#enough(merged(now.pulled, pulled), wanted);
					if (!more) continue;
					now = more;
					people = wanted;
					break;
				}
			}
		}
		const least = now.pulled.length > 0 ? lowered(this.#trials, 0, now.pulled, people, isHurried) : undefined;
		const told = least && this.#told(least);
		return told && { ...told, people };
	}

	/** The levers as they are, or pulled further by and by until they are enough. */
	#enough(pulled: readonly Pulled[], people: ReadonlySet<string>): Enough | undefined {
		let amounts = pulled;
		for (let round = 0; round < 4; round++) {
			const outcome = this.#trials.of(amounts, people);
			if (!outcome) return undefined;
			if (outcome.sure.size > 0) return { pulled: amounts, sure: outcome.sure };
			const more = amounts.map(({ lever, amount }) => ({ lever, amount: Math.min(lever.most, 2 * amount) }));
			if (more.every(({ amount }, at) => amount === amounts[at]?.amount)) return undefined;
			amounts = more;
		}
		return undefined;
	}

	/** The rollout once the levers are pulled, and a plan of it. */
	planOf(pulled: readonly Pulled[]): Pick<RemedyTerms, 'rollout' | 'bookings'> {
		return this.#trials.planOf(pulled);
	}

	#found(enough: Enough | undefined): Found | undefined {
		return enough && this.#told(enough);
	}

	#told({ pulled, sure }: Enough): Found | undefined {
		const edits = changesOf(this.#terms.rollout, pulled);
		if (!edits || edits.length === 0) return undefined;
		const takes = sumOf(pulled.map(({ lever, amount }) => lever.takes(amount)));
		const cost = priceOf(takes, this.#terms.rollout.enrollment.costs);
		const remedy: Remedy = {
			does: pulled.map(({ lever, amount }) => lever.does(amount)).join('; '),
			minutes: pulled.reduce((sum, { lever, amount }) => sum + lever.minutes(amount), 0),
			cost,
			takes,
			kinds: [...new Set(pulled.map(({ lever }) => lever.kind))],
			edits
		};
		return { pulled, cost, remedy, sure };
	}
}

function least(levers: readonly Lever[], kind: RemedyKind): number {
	return levers.reduce((best, lever) => (lever.kind === kind ? Math.min(best, lever.cost(1)) : best), Infinity);
}

function isOf({ pulled }: Found, lever: Lever): boolean {
	return pulled.some((one) => one.lever === lever);
}
