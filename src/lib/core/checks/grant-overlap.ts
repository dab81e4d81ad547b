import type { AccessClass, AccessModel, Grant } from '../access/model';
import { type SpanSet, clip, doMeet, intersection, union } from '../calendar/spans';
import { byCodeUnits } from '../kernel/compare';
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
				const ids = [...new Set(pair.map((place) => access.rollout.assignments[place]?.id as string))].sort(byCodeUnits);
				const key = JSON.stringify([door, ids]);
				const known = cases.get(key);
				const doorId = access.building.doors[door]?.id as string;
				if (known) known.count += one.people.length;
				else cases.set(key, { door: doorId, assignments: ids, count: one.people.length });
			}
		}
		return [...cases.values()].map(
			({ door, assignments, count }): Case => ({ subject: { door, assignments }, count })
		);
	},
	message: ({ subject, count = 0 }, rollout) => {
		const ids = subject['assignments'] as readonly string[];
		const by = ids.length === 1 ? `two entries of assignment ${ids[0]}` : `assignments ${ids.join(' and ')}`;
		return `${nameOf(rollout.doors, subject['door'])} is given to ${counted(count, 'person', 'people')} at the same time by ${by}.`;
	}
});

/** Finds, class by class, the pairs of grants that are open together; equal questions are answered once. */
class OverlapFinder {
	readonly #access: AccessModel;
	readonly #unions = new Map<string, SpanSet>();
	readonly #idBySpans = new Map<SpanSet, number>();
	readonly #meetings = new Map<string, SpanSet>();

	constructor(access: AccessModel) {
		this.#access = access;
	}

	pairsOf(one: AccessClass): { door: number; pair: readonly [number, number] }[] {
		const byDoor = new Map<number, number[]>();
		for (const assignment of one.assignments) {
			for (const door of this.#access.doorsGrantedBy(assignment)) {
				byDoor.set(door, [...(byDoor.get(door) ?? []), assignment]);
			}
		}
		const pairs: { door: number; pair: readonly [number, number] }[] = [];
		for (const [door, assignments] of byDoor) {
			assignments.forEach((a, place) => {
				if (this.#isDouble(one, this.#access.grantsOf(a, door))) pairs.push({ door, pair: [a, a] });
				for (const b of assignments.slice(place + 1)) {
					if (this.#doMeet(one, this.#unionOf(a, door), this.#unionOf(b, door))) pairs.push({ door, pair: [a, b] });
				}
			});
		}
		return pairs;
	}

	#isDouble(one: AccessClass, grants: readonly Grant[]): boolean {
		return grants.some((grant, place) =>
			grants
				.slice(place + 1)
				.some((other) => this.#doMeet(one, this.#access.spansOfGrant(grant), this.#access.spansOfGrant(other)))
		);
	}

	#doMeet(one: AccessClass, a: SpanSet, b: SpanSet): boolean {
		const key = `${this.#idOf(a)}|${this.#idOf(b)}`;
		let both = this.#meetings.get(key);
		if (!both) {
			both = clip(intersection(a, b), this.#access.range.from, this.#access.range.to);
			this.#meetings.set(key, both);
		}
		return doMeet(both, one.employed);
	}

	#unionOf(assignment: number, door: number): SpanSet {
		const parts = this.#access.grantsOf(assignment, door).map((grant) => this.#access.spansOfGrant(grant));
		if (parts.length === 1) return parts[0] as SpanSet;
		const key = parts.map((part) => this.#idOf(part)).join(',');
		let whole = this.#unions.get(key);
		if (!whole) {
			whole = union(...parts);
			this.#unions.set(key, whole);
		}
		return whole;
	}

	#idOf(spans: SpanSet): number {
		const id = this.#idBySpans.get(spans) ?? this.#idBySpans.size;
		this.#idBySpans.set(spans, id);
		return id;
	}
}
