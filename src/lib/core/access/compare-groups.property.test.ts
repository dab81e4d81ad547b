import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rolloutOf } from '../../../../tests/agreement/agree';
import { smallRollouts } from '../../../../tests/support/small-rollouts';
import { lengthOf } from '../calendar/spans';
import { compareAccess } from './compare';
import { groupChanges } from './compare-groups';
import { Comparison } from './comparison';

const pairs = fc.tuple(smallRollouts(40), fc.nat()).map(([document, pick]) => {
	const other = {
		...document,
		assignments: (document.assignments ?? []).filter((_, place) => pick % 3 !== place),
		schedules: (document.schedules ?? []).map((one, place) => (place === pick % 4 ? { ...one, week: {} } : one))
	};
	return pick % 2 === 0 ? ([document, other] as const) : ([other, document] as const);
});

it('groups taken apart are exactly the changes of each person at each door', () => {
	fc.assert(
		fc.property(pairs, ([one, other]) => {
			const [before, after] = [rolloutOf(one), rolloutOf(other)];
			const comparison = new Comparison(before, after);
			const zoned = ({ from, to }: { from: number; to: number }) => {
				return { from: comparison.zone.textOf(from as never), to: comparison.zone.textOf(to as never) };
			};
			const taken = groupChanges(comparison).groups.flatMap(({ doors, people, variants, gained, lost }) => {
				expect(variants.flatMap((variant) => variant.people).sort()).toEqual(people);
				const changes = variants.flatMap((variant) =>
					variant.people.flatMap((person) =>
						doors.map((door) => {
							const spans = (which: 'gained' | 'lost') => comparison.spansOf(variant.change, which);
							const examples = (['gained', 'lost'] as const).flatMap((change) =>
								spans(change)
									.slice(0, 3)
									.map((span) => ({ change, door, ...zoned(span) }))
							);
							const minutes = { gained: lengthOf(spans('gained')) / 60, lost: lengthOf(spans('lost')) / 60 };
							return { person, door, ...minutes, examples };
						})
					)
				);
				expect(changes.reduce((sum, change) => sum + change.gained, 0)).toBe(gained);
				expect(changes.reduce((sum, change) => sum + change.lost, 0)).toBe(lost);
				return changes;
			});
			const inOrder = (a: { person: string; door: string }, b: { person: string; door: string }) =>
				a.person < b.person ? -1 : a.person > b.person ? 1 : a.door < b.door ? -1 : 1;
			expect(taken.sort(inOrder)).toEqual(compareAccess(before, after));
		}),
		{ numRuns: Number(process.env['AGREEMENT_RUNS'] ?? 100) }
	);
}, 300_000);
