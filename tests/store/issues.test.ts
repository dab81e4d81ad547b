import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
	deleteRollout,
	editRollout,
	eraseRollout,
	exportDocument,
	getRollout,
	importDocument,
	issueRollout,
	issuedDocument,
	issuedRollout,
	listIssues,
	rolloutAt,
	undo,
	withdrawIssue
} from '../../src/lib/server/rollouts';
import { forgetAll } from '../../src/lib/server/open-rollouts';
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

function rename(name: string): void {
	const entry = { id: 'inner', from: 'lobby', to: 'hall', name };
	valueOf(editRollout(id, 'put-entry', { collection: 'doors', at: 'inner', entry }, 'Otto'));
}

describe('issued revisions', () => {
	test('keep the document as it was, whatever comes later', () => {
		const before = valueOf(exportDocument(id));
		expect(valueOf(issueRollout(id, ' For the electrician ', 'Nora'))).toMatchObject({
			letter: 'A',
			note: 'For the electrician',
			who: 'Nora',
			change: 1
		});
		rename('Inner door');
		forgetAll();
		expect(valueOf(issuedDocument(id, 'A'))).toBe(before);
		expect(valueOf(issuedRollout(id, 'A')).doors).not.toEqual(getRollout(id)?.rollout.doors);
		expect(valueOf(issueRollout(id, 'Doors named', 'Otto')).letter).toBe('B');
		expect(valueOf(listIssues(id)).map(({ letter, who }) => [letter, who])).toEqual([
			['B', 'Otto'],
			['A', 'Nora']
		]);
	});

	test('are refused without a note, and twice for the same state', () => {
		expect(issueRollout(id, '  ', 'Nora')).toMatchObject({ ok: false, why: 'invalid', faults: [{ path: '$.note' }] });
		valueOf(issueRollout(id, 'First', 'Nora'));
		expect(issueRollout(id, 'Again', 'Nora')).toMatchObject({ ok: false, why: 'conflict' });
		rename('Inner door');
		valueOf(undo(id, 'Nora'));
		expect(issueRollout(id, 'Again', 'Nora')).toMatchObject({ ok: false, why: 'conflict' });
	});

	test('can be withdrawn: the document goes, the letter is not given out again', () => {
		valueOf(issueRollout(id, 'Too early', 'Nora'));
		expect(valueOf(withdrawIssue(id, 'A', 'Otto'))).toMatchObject({ withdrawnBy: 'Otto' });
		expect(issuedDocument(id, 'A')).toMatchObject({ ok: false, why: 'not-found' });
		expect(withdrawIssue(id, 'A', 'Otto')).toMatchObject({ ok: false, why: 'conflict' });
		expect(valueOf(issueRollout(id, 'Now', 'Nora')).letter).toBe('B');
		expect(issuedDocument(id, 'Q')).toMatchObject({ ok: false, why: 'not-found' });
	});

	test('are erased with their rollout', () => {
		valueOf(issueRollout(id, 'First', 'Nora'));
		valueOf(deleteRollout(id, 'Mill Lane Depot', 'Nora'));
		valueOf(eraseRollout(id, 'Mill Lane Depot'));
		valueOf(importDocument(JSON.stringify(smallSite()), 'Nora'));
		expect(valueOf(listIssues(id))).toEqual([]);
	});
});

test('a rollout as it was after any change of its record', () => {
	const states = [getRollout(id)?.rollout];
	rename('Inner door');
	states.push(getRollout(id)?.rollout);
	valueOf(editRollout(id, 'remove-entry', { collection: 'absences', at: 0 }, 'Otto'));
	states.push(getRollout(id)?.rollout);
	valueOf(undo(id, 'Nora', 2));
	states.push(getRollout(id)?.rollout);
	const open = getRollout(id);
	if (!open) throw new Error('the rollout is there');
	states.forEach((state, place) => expect(valueOf(rolloutAt(open, place + 1))).toEqual(state));
	expect(rolloutAt(open, 9)).toMatchObject({ ok: false, why: 'not-found' });
});
