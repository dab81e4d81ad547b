import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import access from '../../src/lib/core/answers/access';
import type { Chain } from '../../src/lib/core/access/chains';
import { explainInDepth } from '../../src/lib/core/access/explain';
import type { LocalDateTime } from '../../src/lib/core/calendar/local-date-time';
import { unwatched } from '../../src/lib/core/kernel/work';
import { AccessOracle } from '../oracles/access-oracle';
import { type PlainDocument, all } from '../oracles/plain-rollout';
import { plusDays } from '../oracles/timeline';
import { smallRollouts } from '../support/small-rollouts';
import { rolloutOf } from './agree';

/**
 * Explanations held against decisions: undo the reason, and the answer changes. What is undone is changed in the document
 * itself, and the answer to that is asked of the evaluation minute by minute as well.
 */

const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 40);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);

const moments = fc.array(
	fc.record({
		person: fc.nat(),
		door: fc.nat(),
		day: fc.integer({ min: 0, max: 8 }),
		minute: fc.oneof(fc.integer({ min: 0, max: 1439 }), fc.constantFrom(0, 59, 120, 150, 1380, 1439))
	}),
	{ minLength: 3, maxLength: 6 }
);

interface Asked {
	readonly person: string;
	readonly door: string;
	readonly at: LocalDateTime;
}

function askedOf(document: PlainDocument, one: { person: number; door: number; day: number; minute: number }): Asked {
	const [people, doors] = [all(document.people), all(document.doors)];
	const days = (Date.parse(document.horizon.until) - Date.parse(document.horizon.from)) / 86_400_000 + 1;
	const clock = [Math.floor(one.minute / 60), one.minute % 60].map((part) => String(part).padStart(2, '0')).join(':');
	return {
		person: people[one.person % people.length]?.id ?? '',
		door: doors[one.door % doors.length]?.id ?? '',
		at: `${plusDays(document.horizon.from, one.day % days)}T${clock}` as LocalDateTime
	};
}

function explain(document: PlainDocument, { person, door, at }: Asked) {
	const rollout = rolloutOf(document);
	const one = rollout.people.find(({ id }) => id === person);
	if (!one) throw new Error(person);
	return explainInDepth(rollout, one, door, at);
}

function isAllowed(document: PlainDocument, { person, door, at }: Asked): boolean {
	const oracle = new AccessOracle(document);
	const one = all(document.people).find(({ id }) => id === person);
	if (!one) throw new Error(person);
	return oracle.mayOpen(one, door)[oracle.time.minuteOf(at.slice(0, 10), at.slice(11))] === 1;
}

/** The document without the breaks of a way, by the smallest change of each: what each of them names and nothing else. */
function mended(document: PlainDocument, chain: Chain, { door, at }: Asked): PlainDocument {
	// The date on which the moment lies, which is another than that of the wall clock where the clock skips a midnight.
	const oracle = new AccessOracle(document);
	const date = oracle.time.dateAt(oracle.time.minuteOf(at.slice(0, 10), at.slice(11)));
	const kind = all(document.holidays?.days).find((day) => day.date === date)?.kind;
	const change = <T extends { id: string }>(
		list: readonly T[] | null | undefined,
		id: string | null,
		by: (one: T) => T
	) => all(list).map((one) => (one.id === id ? by(one) : one));
	let now = document;
	for (const one of chain.broken) {
		switch (one) {
			case 'assignment-not-in-force':
				now = {
					...now,
					assignments: change(now.assignments, chain.assignment, (a) => ({ ...a, from: null, until: null }))
				};
				break;
			case 'door-not-granted':
				now = {
					...now,
					doorGroups: change(now.doorGroups, chain.doorGroup, (group) => ({
						...group,
						doors: [...all(group.doors), door]
					}))
				};
				break;
			case 'schedule-not-valid':
				now = { ...now, schedules: change(now.schedules, chain.schedule, (s) => ({ ...s, from: null, until: null })) };
				break;
			case 'holiday-undecided':
			case 'holiday-closed':
				now = {
					...now,
					schedules: change(now.schedules, chain.schedule, (s) => {
						return { ...s, holidays: { ...s.holidays, [kind ?? '']: 'normal' as const } };
					})
				};
				break;
			case 'schedule-closed': {
				const day = (['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'] as const)[
					new Date(`${date}T00:00Z`).getUTCDay()
				];
				now = {
					...now,
					schedules: change(now.schedules, chain.schedule, (s) => ({
						...s,
						week: { ...s.week, [day ?? 'sun']: ['00:00-24:00'] }
					}))
				};
			}
		}
	}
	return now;
}

/** As `mended`, of the first `count` breaks. */
const partlyMended = (document: PlainDocument, chain: Chain, asked: Asked, count: number) =>
	mended(document, { ...chain, broken: chain.broken.slice(0, count) }, asked);

/** The way of a chain in another explanation: of the same assignment by the same group and schedule. */
const sameWay = (chains: readonly Chain[], chain: Chain) =>
	chains.filter(
		({ assignment, doorGroup, schedule }) =>
			assignment === chain.assignment && doorGroup === chain.doorGroup && schedule === chain.schedule
	);

describe('undo the reason, and the answer changes', () => {
	it('a no: each break undone uncovers the next, and the last one opens the door', () => {
		let undone = 0;
		fc.assert(
			fc.property(smallRollouts(8), moments, (document, list) => {
				for (const moment of list) {
					const asked = askedOf(document, moment);
					const { explanation, chains } = explain(document, asked);
					if (explanation.allowed || explanation.blockedBy[0]?.reason === 'not-employed') continue;
					for (const chain of chains.filter(({ schedule }) => schedule !== null)) {
						expect(explanation.blockedBy.map(({ reason }) => reason)).toContain(chain.broken[0]);
						for (let count = 1; count <= chain.broken.length; count++) {
							const after = partlyMended(document, chain, asked, count);
							const isWhole = count === chain.broken.length;
							const [way] = sameWay(explain(after, asked).chains, chain);
							expect(way?.broken).toEqual(chain.broken.slice(count));
							if (isWhole) expect(isAllowed(after, asked)).toBe(true);
							undone++;
						}
					}
				}
			}),
			{ numRuns, seed }
		);
		expect(undone).toBeGreaterThan(numRuns);
	}, 600_000);

	it('a no: what is said to be nearest takes no more to undo than anything else', () => {
		fc.assert(
			fc.property(smallRollouts(8), moments, (document, list) => {
				for (const moment of list) {
					const { explanation, chains } = explain(document, askedOf(document, moment));
					const [block] = explanation.blockedBy;
					if (explanation.allowed || block?.assignment === undefined) continue;
					const least = Math.min(...chains.map(({ broken }) => broken.length));
					expect(chains[0]?.broken).toHaveLength(least);
					expect(block).toMatchObject({ assignment: chains[0]?.assignment, reason: chains[0]?.broken[0] });
				}
			}),
			{ numRuns, seed }
		);
	}, 600_000);

	it('a no because nobody is employed or matched then: undone, another reason or a yes', () => {
		fc.assert(
			fc.property(smallRollouts(8), moments, (document, list) => {
				for (const moment of list) {
					const asked = askedOf(document, moment);
					const [block] = explain(document, asked).explanation.blockedBy;
					const people = all(document.people).map((one) =>
						one.id === asked.person ? { ...one, startsOn: null, leavesOn: null } : one
					);
					const assignments = all(document.assignments).map((one) => ({ ...one, who: { everyone: true } }));
					if (block?.reason === 'not-employed') {
						expect(explain({ ...document, people }, asked).explanation.blockedBy[0]?.reason).not.toBe('not-employed');
					}
					if (block?.reason === 'not-matched' && assignments.length > 0) {
						const { explanation } = explain({ ...document, assignments }, asked);
						expect(explanation.blockedBy[0]?.reason).not.toBe('not-matched');
						// The sentence names an assignment exactly where one would open the door.
						expect(block.detail.includes('would open it then')).toBe(explanation.allowed);
					}
				}
			}),
			{ numRuns, seed }
		);
	}, 600_000);

	it('a yes: without the assignments that it names it is a no, and with any one of them left it is a yes', () => {
		let removed = 0;
		fc.assert(
			fc.property(smallRollouts(8), moments, (document, list) => {
				for (const moment of list) {
					const asked = askedOf(document, moment);
					const { explanation } = explain(document, asked);
					if (!explanation.allowed) continue;
					const named = new Set(explanation.because.map(({ assignment }) => assignment));
					const others = all(document.assignments).filter(({ id }) => !named.has(id));
					expect(isAllowed({ ...document, assignments: others }, asked)).toBe(false);
					for (const one of all(document.assignments).filter(({ id }) => named.has(id))) {
						expect(isAllowed({ ...document, assignments: [...others, one] }, asked)).toBe(true);
					}
					removed++;
				}
			}),
			{ numRuns, seed }
		);
		expect(removed).toBeGreaterThan(numRuns / 4);
	}, 600_000);

	it('no route: the doors that are missing are enough, and none of them is too many', () => {
		fc.assert(
			fc.property(smallRollouts(8), moments, (document, list) => {
				for (const moment of list) {
					const asked = askedOf(document, moment);
					const { explanation, missingDoors } = explain(document, asked);
					if (!explanation.allowed) continue;
					expect(missingDoors?.length === 0).toBe(explanation.route !== null);
					if (missingDoors === null || missingDoors.length === 0) continue;
					expect(explain(opened(document, asked.person, missingDoors), asked).explanation.route).not.toBeNull();
					for (const one of missingDoors) {
						const fewer = missingDoors.filter((id) => id !== one);
						expect(explain(opened(document, asked.person, fewer), asked).explanation.route).toBeNull();
					}
				}
			}),
			{ numRuns, seed }
		);
	}, 600_000);

	it('the next time: the first instant at which the door opens, and not a minute before it', async () => {
		await fc.assert(
			fc.asyncProperty(smallRollouts(8), moments, async (document, list) => {
				for (const moment of list) {
					const asked = askedOf(document, moment);
					const { explanation } = explain(document, asked);
					if (explanation.allowed) continue;
					const answer = await access.run(
						rolloutOf(document),
						{
							person: asked.person,
							door: asked.door,
							from: asked.at.slice(0, 10) as never,
							until: document.horizon.until as never
						},
						unwatched
					);
					if (!answer.ok) continue;
					const oracle = new AccessOracle(document);
					const now = oracle.time.minuteOf(asked.at.slice(0, 10), asked.at.slice(11));
					const start = Date.parse(oracle.time.textOf(now));
					const first = answer.value.spans.find(({ from }) => Date.parse(from) >= start)?.from ?? null;
					expect(explanation.nextAllowed).toBe(first);
				}
			}),
			{ numRuns, seed }
		);
	}, 600_000);
});

/** The document with one more assignment that gives one person some doors at any time. */
function opened(document: PlainDocument, person: string, doors: readonly string[]): PlainDocument {
	const always = Object.fromEntries(
		['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, ['00:00-24:00']])
	);
	const kinds = new Set(all(document.holidays?.days).map(({ kind }) => kind));
	return {
		...document,
		doorGroups: [...all(document.doorGroups), { id: 'opened', doors: [...doors] }],
		schedules: [
			...all(document.schedules),
			{ id: 'opened', week: always, holidays: Object.fromEntries([...kinds].map((kind) => [kind, 'normal' as const])) }
		],
		accessProfiles: [
			...all(document.accessProfiles),
			{ id: 'opened', entries: [{ doorGroup: 'opened', schedule: 'opened' }] }
		],
		assignments: [...all(document.assignments), { id: 'opened', who: { people: [person] }, accessProfile: 'opened' }]
	};
}
