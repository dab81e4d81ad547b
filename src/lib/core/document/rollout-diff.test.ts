import { expect, it } from 'vitest';
import { rolloutOf } from '../../../../tests/agreement/agree';
import { smallSite } from '../../../../tests/support/small-site';
import { diffRollouts } from './rollout-diff';

const small = smallSite();
const read = (document: unknown) => rolloutOf(document as never);

it('finds nothing between a document and the same with its defaults written out', () => {
	expect(diffRollouts(read(small), read(small))).toEqual([]);
	const doors = (small.doors ?? []).map((door) => ({ exit: 'free', identify: 'finger', ...door }));
	expect(diffRollouts(read(small), read({ ...small, doors }))).toEqual([]);
});

it('names what was added, removed and changed, with the fields that differ', () => {
	const [first, ...others] = small.doors ?? [];
	const changed = {
		...small,
		site: { ...small.site, arriveEarlyMinutes: 25 },
		doors: [{ ...first, name: 'Gate' }, ...others, { id: 'new', name: 'New door', from: 'lobby', to: 'hall' }],
		absences: []
	};
	const changes = diffRollouts(read(small), read(changed));
	expect(changes.map(({ collection, key, change }) => [collection, key, change])).toEqual([
		['site', '', 'changed'],
		['doors', first?.id, 'changed'],
		['doors', 'new', 'added'],
		...(small.absences ?? []).map(({ person, from, until }) => ['absences', `${person} ${from} ${until}`, 'removed'])
	]);
	expect(changes[1]).toMatchObject({
		name: 'Gate',
		fields: [{ field: 'name', before: first?.name ?? null, after: 'Gate' }]
	});
	expect(changes[0]?.fields.map(({ field }) => field)).toEqual(['arriveEarlyMinutes']);
});
