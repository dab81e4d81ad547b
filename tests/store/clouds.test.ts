import { afterEach, beforeEach, expect, test } from 'vitest';
import { cloudsOf } from '../../src/lib/server/clouds';
import { editRollout, getRollout, importDocument, issueRollout, undo } from '../../src/lib/server/rollouts';
import { compareStates, endComparings } from '../../src/lib/server/jobs/comparings';
import { lookAt, lookedAt, stateOf } from '../../src/lib/server/views/compared';
import { useDataFolder } from '../support/data-folder';
import { valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

let data: ReturnType<typeof useDataFolder>;
const id = 'mill-lane-depot';
beforeEach(() => {
	data = useDataFolder();
	valueOf(importDocument(JSON.stringify(smallSite()), 'Nora'));
});
afterEach(() => data.end());

function open() {
	const rollout = getRollout(id);
	if (!rollout) throw new Error('the rollout is there');
	return rollout;
}

test('a change after an issue is clouded and listed on its sheet, and no more once it is taken back', () => {
	expect(cloudsOf(open())).toBeNull();
	valueOf(issueRollout(id, 'For the electrician', 'Nora'));
	expect(cloudsOf(open())).toMatchObject({ letter: 'A', next: 'B', isIssued: true, changed: {}, lines: {} });
	const entry = { id: 'inner', from: 'lobby', to: 'hall', name: 'Inner door' };
	valueOf(editRollout(id, 'put-entry', { collection: 'doors', at: 'inner', entry }, 'Otto'));
	const clouds = cloudsOf(open());
	expect(clouds).toMatchObject({ letter: 'A', isIssued: false, count: 1, changed: { doors: ['inner'] } });
	expect(clouds?.lines['S-1']?.[0]).toMatch(/^Door Inner door: .*name/);
	valueOf(undo(id, 'Nora'));
	expect(cloudsOf(open())).toMatchObject({ isIssued: true, changed: {}, count: 0 });
});

test('entries without ids are clouded at their place, and a consent with its person', () => {
	valueOf(issueRollout(id, 'For the electrician', 'Nora'));
	const person = open().document.people?.[0]?.id ?? '';
	const absence = { person, from: '2027-03-01', until: '2027-03-05' };
	valueOf(editRollout(id, 'put-entry', { collection: 'absences', entry: absence }, 'Otto'));
	const notice = { id: 'n9', publishedOn: '2026-01-01' };
	valueOf(editRollout(id, 'put-entry', { collection: 'notices', entry: notice }, 'Otto'));
	const consent = { person, notice: 'n9', on: '2026-11-02', decision: 'given' };
	valueOf(editRollout(id, 'put-entry', { collection: 'consents', entry: consent }, 'Otto'));
	const { changed } = cloudsOf(open()) ?? {};
	const place = (open().document.absences?.length ?? 0) - 1;
	expect(changed?.['absences']).toEqual([`${person} 2027-03-01 2027-03-05`, `#${place}`]);
	expect(changed?.['consents']).toContain(person);
});

test('states are found by letter, by change, as the last issue and as now; who loses is told and narrowed', async () => {
	expect(stateOf(open(), '')).toMatchObject({ ok: false, why: 'not-found' });
	valueOf(issueRollout(id, 'First', 'Nora'));
	valueOf(
		editRollout(id, 'set-part', { part: 'site', value: { ...open().document.site, arriveEarlyMinutes: 1 } }, 'Otto')
	);
	const profile = open().document.accessProfiles?.[0];
	const emptied = { ...profile, entries: [] };
	valueOf(editRollout(id, 'put-entry', { collection: 'accessProfiles', at: profile?.id, entry: emptied }, 'Otto'));
	const [issued, first, now] = ['', '1', 'now'].map((name) => valueOf(stateOf(open(), name)));
	expect(issued?.rollout).toEqual(first?.rollout);
	expect(issued?.label).toBe('revision A');
	if (!issued || !now) throw new Error('both states are there');
	const groupsOf = async (filter: Parameters<typeof compareStates>[1]) => {
		const { state, value } = await compareStates([issued, now], filter);
		expect(state).toBe('done');
		if (!value) throw new Error('a comparison that is done has its groups');
		return value;
	};
	const { groups, total, rest } = await groupsOf({});
	expect(total.lose).toBeGreaterThan(0);
	expect(total.gain).toBe(0);
	expect(rest).toBeNull();
	expect((await groupsOf({ does: 'lose' })).groups).toEqual(groups);
	expect((await groupsOf({ does: 'gain' })).groups).toEqual([]);
	expect((await groupsOf({ door: 'no-such-door' })).groups).toEqual([]);
	const person = groups[0]?.people[0] ?? '';
	const own = (await groupsOf({ person })).groups;
	expect(own.length).toBeGreaterThan(0);
	expect(own.every((group) => group.people.includes(person))).toBe(true);
	await endComparings();
});

test('a document is compared under a name of its own, for its rollout only, and is in no store', () => {
	const other = valueOf(importDocument(JSON.stringify({ ...smallSite(), id: undefined }), 'Nora'));
	const bytes = new TextEncoder().encode(JSON.stringify(smallSite()));
	const name = valueOf(lookAt(open(), 'before.json', bytes));
	expect(valueOf(stateOf(open(), name))).toMatchObject({ label: 'the document before.json' });
	expect(lookedAt(open())).toEqual([{ value: name, label: 'The document before.json' }]);
	const beside = getRollout(other.id);
	if (!beside) throw new Error('the other rollout is there');
	expect(lookedAt(beside)).toEqual([]);
	expect(stateOf(beside, name)).toMatchObject({ ok: false, why: 'not-found' });
	expect(lookAt(open(), 'bad.json', new TextEncoder().encode('{}'))).toMatchObject({ ok: false, why: 'invalid' });
});
