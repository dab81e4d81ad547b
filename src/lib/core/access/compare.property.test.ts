import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rolloutOf } from '../../../../tests/agreement/agree';
import { changesBetween } from '../../../../tests/oracles/questions-oracle';
import { type PlainDocument, all } from '../../../../tests/oracles/plain-rollout';
import { smallRollouts } from '../../../../tests/support/small-rollouts';
import { clip, difference, lengthOf, noSpans } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import type { Rollout } from '../document/schema';
import { type AccessChange, compareAccess } from './compare';
import { AccessModel } from './model';

/** Each pair by itself, with whole span sets: slow, and nothing shared between people. */
function compareOneByOne(before: Rollout, after: Rollout): AccessChange[] {
	const models = [new AccessModel(before, after.horizon), new AccessModel(after, after.horizon)] as const;
	const [, { range, zone }] = models;
	const ids = (pick: (rollout: Rollout) => readonly { id: string }[]) =>
		[...new Set([before, after].flatMap((rollout) => pick(rollout).map(({ id }) => id)))].sort();
	return ids(({ people }) => people).flatMap((person) =>
		ids(({ doors }) => doors).flatMap((door) => {
			const [old, now] = models.map((model) => {
				const [one, place] = [model.findClass(person), model.building.doorPlaceById.get(door)];
				return one && place !== undefined ? model.doorSpansOf(one, place) : noSpans;
			}) as [typeof noSpans, typeof noSpans];
			const gained = clip(difference(now, old), range.from, range.to);
			const lost = clip(difference(old, now), range.from, range.to);
			if (gained.length + lost.length === 0) return [];
			const examplesOf = (change: 'gained' | 'lost', spans: typeof noSpans) =>
				spans.slice(0, 3).map(({ from, to }) => {
					return { change, door, from: zone.textOf(from as Instant), to: zone.textOf(to as Instant) };
				});
			const examples = [...examplesOf('gained', gained), ...examplesOf('lost', lost)];
			return [{ person, door, gained: lengthOf(gained) / 60, lost: lengthOf(lost) / 60, examples }];
		})
	);
}

/** Nobody is named any more, so that somebody can be missing. */
function withoutPeople(document: PlainDocument): PlainDocument['assignments'] {
	return all(document.assignments).map((one) => ({ ...one, who: { ...one.who, people: [] } }));
}

/** The second document takes what it pleases from the first: people, dates of employment, doors, clock, horizon. */
const pairs = fc
	.tuple(smallRollouts(10), smallRollouts(10), fc.nat(), fc.nat())
	.map(([one, other, pick, shift]): [PlainDocument, PlainDocument] => {
		const people = all(one.people).map((person, place) => {
			const like = all(other.people)[(place + shift) % Math.max(1, all(other.people).length)];
			return like ? { ...person, startsOn: like.startsOn ?? null, leavesOn: like.leavesOn ?? null } : person;
		});
		const changed = [
			{ ...one, people },
			{ ...one, people: people.slice(1), absences: [], assignments: withoutPeople(one) },
			{ ...one, assignments: all(one.assignments).slice(1), people },
			{ ...one, schedules: all(one.schedules).map((schedule) => ({ ...schedule, holidays: {} })) },
			{ ...one, site: { ...one.site, timeZone: 'Pacific/Kiritimati' }, people },
			{ ...one, site: { ...one.site, timeZone: 'America/St_Johns' } },
			{ ...one, doorGroups: all(one.doorGroups).map((group) => ({ ...group, doors: all(group.doors).slice(1) })) }
		][pick % 7] as PlainDocument;
		return shift % 2 === 0 ? [one, changed] : [changed, one];
	});

const runs = Number(process.env['AGREEMENT_RUNS'] ?? 150);

it('people who change alike change as each by themselves', () => {
	fc.assert(
		fc.property(pairs, ([one, other]) => {
			const [before, after] = [rolloutOf(one), rolloutOf(other)];
			expect(compareAccess(before, after)).toEqual(compareOneByOne(before, after));
		}),
		{ numRuns: runs }
	);
}, 300_000);

it('minute by minute, also between two clocks', () => {
	fc.assert(
		fc.property(pairs, ([one, other]) => {
			const told = compareAccess(rolloutOf(one), rolloutOf(other)).map(({ person, door, gained, lost }) => [
				JSON.stringify([person, door]),
				{ gained, lost }
			]);
			expect(Object.fromEntries(told)).toEqual(Object.fromEntries(changesBetween(one, other)));
		}),
		{ numRuns: Math.ceil(runs / 5) }
	);
}, 300_000);
