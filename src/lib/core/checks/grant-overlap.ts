import type { AccessClass, AccessModel, Grant } from '../access/model';
import { type SpanSet, clip, doMeet, intersection, noSpans, union } from '../calendar/spans';
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
	source: 'ONVIF Access Rules: several policies for one access point are a union; V-ACC-01 of the facts',
	mendAt: ({ assignments }) => `profiles?assignment=${encodeURIComponent(String(assignments?.[0]))}`,
	find: ({ access }) => {
		const cases = new Map<string, { door: string; assignments: string[]; count: number }>();
		const meets = new OverlapFinder(access);
		for (const one of access.classes) {
			for (const { door, pair } of meets.pairsOf(one)) {
				const ids = [...new Set(pair.map((place) => access.rollout.assignments[place]?.id as string))].sort(
					byCodeUnits
				);
				const key = JSON.stringify([door, ids]);
				const known = cases.get(key);
				const doorId = access.building.doors[door]?.id as string;
				if (known) known.count += one.people.length;
				else cases.set(key, { door: doorId, assignments: ids, count: one.people.length });
			}
		}
		return [...cases.values()].map(({ door, assignments, count }): Case => ({ subject: { door, assignments }, count }));
	},
	message: ({ subject, count = 0 }, rollout) => {
		const ids = subject['assignments'] as readonly string[];
		const by = ids.length === 1 ? `two entries of assignment ${ids[0]}` : `assignments ${ids.join(' and ')}`;
		return `${nameOf(rollout.doors, subject['door'])} is given to ${counted(count, 'person', 'people')} at the same time by ${by}.`;
	}
});

/** Two grants of one door that are open together at some time: the door, the places of their assignments, and when. */
interface Pair {
	readonly door: number;
	readonly pair: readonly [number, number];
	readonly together: SpanSet;
}

/** Finds the pairs of grants that are open together; those of the same assignments are found once. */
class OverlapFinder {
	readonly #access: AccessModel;
	readonly #unions = new Map<string, SpanSet>();
	readonly #idBySpans = new Map<SpanSet, number>();
	readonly #meetings = new Map<number, SpanSet>();
	readonly #pairsByAssignments = new Map<string, readonly Pair[]>();

	constructor(access: AccessModel) {
		this.#access = access;
	}

	/** The pairs that are open together while a class is employed. */
	pairsOf(one: AccessClass): readonly Pair[] {
		const pairs = remembered(this.#pairsByAssignments, one.assignments.join(), () => this.#findPairs(one.assignments));
		const { range } = this.#access;
		const [first] = one.employed;
		if (first && first.from <= range.from && first.to >= range.to) return pairs;
		return pairs.filter(({ together }) => doMeet(together, one.employed));
	}

	#findPairs(assignments: readonly number[]): Pair[] {
		const byDoor = new Map<number, number[]>();
		for (const assignment of assignments) {
			for (const door of this.#access.doorsGrantedBy(assignment)) remembered(byDoor, door, () => []).push(assignment);
		}
		const pairs: Pair[] = [];
		const note = (door: number, pair: readonly [number, number], together: SpanSet) => {
			if (together.length > 0) pairs.push({ door, pair, together });
		};
		for (const [door, granting] of byDoor) {
			granting.forEach((a, place) => {
				note(door, [a, a], this.#twice(this.#access.grantsOf(a, door)));
				for (const b of granting.slice(place + 1)) {
					note(door, [a, b], this.#together(this.#unionOf(a, door), this.#unionOf(b, door)));
				}
			});
		}
		return pairs;
	}

	/** When two of the grants of one assignment are open. */
	#twice(grants: readonly Grant[]): SpanSet {
		if (grants.length < 2) return noSpans;
		const spans = grants.map((grant) => this.#access.spansOfGrant(grant));
		return union(...spans.flatMap((a, place) => spans.slice(place + 1).map((b) => this.#together(a, b))));
	}

	#together(a: SpanSet, b: SpanSet): SpanSet {
		return remembered(this.#meetings, this.#idOf(a) * 1_000_000 + this.#idOf(b), () =>
			clip(intersection(a, b), this.#access.range.from, this.#access.range.to)
		);
	}

	#unionOf(assignment: number, door: number): SpanSet {
		const parts = this.#access.grantsOf(assignment, door).map((grant) => this.#access.spansOfGrant(grant));
		if (parts.length === 1) return parts[0] as SpanSet;
		return remembered(this.#unions, parts.map((part) => this.#idOf(part)).join(), () => union(...parts));
	}

	#idOf(spans: SpanSet): number {
		return remembered(this.#idBySpans, spans, () => this.#idBySpans.size);
	}
}
