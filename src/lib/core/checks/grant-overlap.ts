import type { AccessClass, AccessModel } from '../access/model';
import type { SpanSet } from '../calendar/spans';
import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
import { counted, nameOf } from '../document/names';
import { type Case, defineCheck } from './define-check';

export default defineCheck({
	code: 'grant-overlap',
	severity: 'note',
	title: 'Same door given twice',
	why: 'Taking one of the two away would take nothing from these people at the times that both give; that may surprise whoever tries it.',
	mend: 'Nothing need be done; to have one reason for each door, narrow or remove one of the two.',
	source: 'ONVIF Access Rules Service Specification: several policies for one access point are a union',
	mendAt: ({ assignments }) => `profiles?assignment=${encodeURIComponent(String(assignments?.[0]))}`,
	find: ({ access }) => {
		const { assignments } = access.rollout;
		const finder = new OverlapFinder(access);
		const counts = new Map<number, { readonly found: Pair; people: number }>();
		for (const one of access.classes) {
			for (const found of finder.pairsOf(one)) {
				const [a, b] = found.pair;
				const key = (found.door * assignments.length + a) * assignments.length + b;
				remembered(counts, key, () => ({ found, people: 0 })).people += one.people.length;
			}
		}
		return [...counts.values()].map(({ found, people }): Case => {
			const ids = [...new Set(found.pair)].map((place) => assignments[place]?.id as string).sort(byCodeUnits);
			return { subject: { door: access.building.doors[found.door]?.id as string, assignments: ids }, count: people };
		});
	},
	message: ({ subject, count = 0 }, rollout) => {
		const ids = subject['assignments'] as readonly string[];
		const by = ids.length === 1 ? `two entries of assignment ${ids[0]}` : `assignments ${ids.join(' and ')}`;
		return `${nameOf(rollout.doors, subject['door'])} is given to ${counted(count, 'person', 'people')} at the same time by ${by}.`;
	}
});

/** A door, and the places of two assignments (or twice the same) with grants of it that are open together at some time. */
interface Pair {
	readonly door: number;
	readonly pair: readonly [number, number];
}

/** Finds the pairs of grants that are open together; those of the same assignments are found once. */
class OverlapFinder {
	readonly #access: AccessModel;
	readonly #pairsByAssignments = new Map<string, readonly Pair[]>();
	readonly #numberBySpans = new Map<SpanSet, number>();
	readonly #meetings = new Map<number, boolean>();

	constructor(access: AccessModel) {
		this.#access = access;
	}

	/** The pairs that are open together on a date of the horizon on which a class is employed. */
	pairsOf(one: AccessClass): readonly Pair[] {
		const pairs = remembered(this.#pairsByAssignments, one.assignments.join(), () => this.#findPairs(one.assignments));
		const { from, until } = this.#access;
		if (one.firstDay <= from && until <= one.lastDay) return pairs;
		const [first, last] = [Math.max(from, one.firstDay), Math.min(until, one.lastDay)];
		return pairs.filter(({ door, pair }) =>
			this.#doMeetBy(door, pair, (a, b) => this.#access.doGrantsMeet(a, b, first, last))
		);
	}

	#findPairs(assignments: readonly number[]): Pair[] {
		const byDoor = new Map<number, number[]>();
		for (const assignment of assignments) {
			for (const door of this.#access.doorsGrantedBy(assignment)) remembered(byDoor, door, () => []).push(assignment);
		}
		const pairs: Pair[] = [];
		for (const [door, granting] of byDoor) {
			granting.forEach((a, place) => {
				for (const b of granting.slice(place)) {
					if (this.#doMeetBy(door, [a, b], (one, other) => this.#doMeet(one, other)))
						pairs.push({ door, pair: [a, b] });
				}
			});
		}
		return pairs;
	}

	#doMeetBy(door: number, [a, b]: Pair['pair'], meets: (one: SpanSet, other: SpanSet) => boolean): boolean {
		const [ones, others] = [this.#access.grantsOf(a, door), this.#access.grantsOf(b, door)];
		return ones.some((one, place) =>
			others
				.slice(a === b ? place + 1 : 0)
				.some((other) => meets(this.#access.spansOfGrant(one), this.#access.spansOfGrant(other)))
		);
	}

	#doMeet(a: SpanSet, b: SpanSet): boolean {
		const { from, until } = this.#access;
		return remembered(this.#meetings, this.#numberOf(a) * 0x100000 + this.#numberOf(b), () =>
			this.#access.doGrantsMeet(a, b, from, until)
		);
	}

	#numberOf(spans: SpanSet): number {
		return remembered(this.#numberBySpans, spans, () => this.#numberBySpans.size);
	}
}
