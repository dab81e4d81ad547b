import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { forgetAll } from '../../src/lib/server/open-rollouts';
import {
	createRollout,
	deleteRollout,
	editRollout,
	eraseRollout,
	exportDocument,
	getChange,
	getRollout,
	importDocument,
	listChanges,
	listRemovedRollouts,
	listRollouts,
	redo,
	restoreRollout,
	undo,
	undoState
} from '../../src/lib/server/rollouts';
import { useDataFolder } from '../support/data-folder';
import { refusalOf, valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

let data: ReturnType<typeof useDataFolder>;
let id: string;

beforeEach(() => {
	data = useDataFolder();
	id = valueOf(importDocument(JSON.stringify(smallSite()), 'Nora')).id;
});
afterEach(() => data.end());

/** What the store itself holds, not what is in memory. */
function storedDocument(): unknown {
	forgetAll();
	return JSON.parse(valueOf(exportDocument(id)));
}

const rename = (to: string) =>
	valueOf(
		editRollout(
			id,
			'put-entry',
			{
				collection: 'doors',
				at: 'main',
				entry: { id: 'main', name: to, from: 'street', to: 'lobby', controller: 'c1' }
			},
			'Nora'
		)
	);

describe('a change', () => {
	test('is kept, and recorded with who, when, what, before and after', () => {
		const before = getRollout(id);
		const { open, change } = rename('Front door');
		expect(open.document.doors?.[0]?.name).toBe('Front door');
		expect(storedDocument()).toEqual(open.document);
		expect(change).toMatchObject({
			number: 2,
			who: 'Nora',
			what: 'Door main changed',
			edit: 'put-entry',
			undoneBy: null
		});
		expect(Math.abs(Date.now() - Date.parse(change?.at ?? ''))).toBeLessThan(60_000);
		expect(open.revision).not.toBe(before?.revision);
		const { touched } = valueOf(getChange(id, 2));
		expect(touched).toEqual([
			{
				path: 'doors',
				number: expect.any(Number) as number,
				before: { position: 0, value: before?.document.doors?.[0] },
				after: { position: 0, value: open.document.doors?.[0] }
			}
		]);
	});

	test('shares every untouched entry with the state before', () => {
		const before = getRollout(id);
		const { open } = rename('Front door');
		expect(open.document.doors?.[1]).toBe(before?.document.doors?.[1]);
		expect(open.document.people).toBe(before?.document.people);
		expect(before?.document.doors?.[0]?.name).toBe('Main entrance');
	});

	test('that changes nothing is not recorded', () => {
		const same = structuredClone(getRollout(id)?.document.doors?.[0]);
		const { change } = valueOf(editRollout(id, 'put-entry', { collection: 'doors', at: 'main', entry: same }, 'Nora'));
		expect(change).toBeNull();
		expect(valueOf(listChanges(id))).toHaveLength(1);
	});

	test('that is refused leaves the store as it was', () => {
		const before = storedDocument();
		const entry = { id: 'side', from: 'street', to: 'loby', colour: 'red' };
		const refusal = refusalOf(editRollout(id, 'put-entry', { collection: 'doors', entry }, 'Nora'));
		expect(refusal).toMatchObject({ why: 'invalid', paths: ['$.entry.colour', '$.entry.to'] });
		expect(refusal.messages).toContain('did you mean "lobby"');
		expect(storedDocument()).toEqual(before);
		expect(valueOf(listChanges(id))).toHaveLength(1);
	});

	test('comes too late when somebody else changed the entry or the rollout in the meantime', () => {
		const seen = getRollout(id);
		rename('Front door');
		const late = {
			collection: 'doors',
			at: 'main',
			entry: { id: 'main', from: 'street', to: 'hall' },
			was: seen?.document.doors?.[0]
		};
		expect(refusalOf(editRollout(id, 'put-entry', late, 'Otto'))).toMatchObject({ why: 'conflict', paths: ['$.was'] });
		const fresh = { ...late, was: undefined };
		expect(refusalOf(editRollout(id, 'put-entry', fresh, 'Otto', seen?.revision))).toMatchObject({ why: 'conflict' });
		expect(getRollout(id)?.document.doors?.[0]?.name).toBe('Front door');
	});

	test('of an unknown edit or rollout names the nearest', () => {
		expect(refusalOf(editRollout(id, 'put-entri', {}, 'Nora'))).toMatchObject({ why: 'not-found', paths: ['$.edit'] });
		const missing = refusalOf(editRollout(`${id}x`, 'put-entry', {}, 'Nora'));
		expect(missing).toMatchObject({ why: 'not-found', paths: ['$.rollout'] });
		expect(missing.messages).toContain(`did you mean "${id}"`);
	});
});

describe('taking back', () => {
	test('walks back through the changes and forward again', () => {
		const states = [storedDocument()];
		rename('Front door');
		states.push(storedDocument());
		valueOf(editRollout(id, 'remove-entry', { collection: 'walks', at: 0 }, 'Otto'));
		states.push(storedDocument());
		valueOf(undo(id, 'Nora'));
		expect(storedDocument()).toEqual(states[1]);
		expect(undoState(id)).toMatchObject({ undo: { number: 2 }, redo: { number: 3 } });
		valueOf(undo(id, 'Nora'));
		expect(storedDocument()).toEqual(states[0]);
		expect(undoState(id)).toMatchObject({ undo: null, redo: { number: 2 } });
		expect(refusalOf(undo(id, 'Nora'))).toMatchObject({ why: 'conflict' });
		valueOf(redo(id, 'Nora'));
		expect(storedDocument()).toEqual(states[1]);
		valueOf(redo(id, 'Nora'));
		expect(storedDocument()).toEqual(states[2]);
		expect(refusalOf(redo(id, 'Nora'))).toMatchObject({ why: 'conflict' });
		expect(valueOf(listChanges(id)).map((one) => one.what)).toEqual([
			'Redone: Walk between hall and lobby removed',
			'Redone: Door main changed',
			'Taken back: Door main changed',
			'Taken back: Walk between hall and lobby removed',
			'Walk between hall and lobby removed',
			'Door main changed',
			'Document imported'
		]);
		valueOf(undo(id, 'Nora'));
		expect(storedDocument()).toEqual(states[1]);
	});

	test('works for an older change when nothing later touched the same', () => {
		rename('Front door');
		valueOf(
			editRollout(id, 'set-part', { part: 'site', value: { name: 'Mill Lane', timeZone: 'America/Chicago' } }, 'Otto')
		);
		const { open, change } = valueOf(undo(id, 'Nora', 2));
		expect(change).toMatchObject({ undoes: 2, what: 'Taken back: Door main changed', edit: 'undo' });
		expect(open.document.doors?.[0]?.name).toBe('Main entrance');
		expect(open.document.site.name).toBe('Mill Lane');
		expect(open.name).toBe('Mill Lane');
		expect(valueOf(listChanges(id)).find((one) => one.number === 2)?.undoneBy).toBe(4);
		expect(refusalOf(undo(id, 'Nora', 2))).toMatchObject({ why: 'conflict' });
	});

	test('is refused when a later change touched the same, and names it', () => {
		rename('Front door');
		rename('Gate');
		const refusal = refusalOf(undo(id, 'Nora', 2));
		expect(refusal.why).toBe('conflict');
		expect(refusal.messages).toContain('number 3 (Door main changed, by Nora)');
		valueOf(undo(id, 'Nora', 3));
		valueOf(undo(id, 'Nora', 2));
		expect(storedDocument()).toEqual(smallSite());
	});

	test('is refused when a later change names what would go', () => {
		valueOf(editRollout(id, 'put-entry', { collection: 'areas', entry: { id: 'yard' } }, 'Nora'));
		valueOf(
			editRollout(id, 'put-entry', { collection: 'doors', entry: { id: 'gate', from: 'street', to: 'yard' } }, 'Nora')
		);
		expect(refusalOf(undo(id, 'Nora', 2))).toMatchObject({ why: 'conflict', paths: ['$.doors[2].to'] });
	});

	test('of the first change is refused, and of one that is not there', () => {
		expect(refusalOf(undo(id, 'Nora', 1))).toMatchObject({ why: 'conflict' });
		expect(refusalOf(undo(id, 'Nora', 9))).toMatchObject({ why: 'not-found' });
	});
});

describe('rollouts', () => {
	test('are several in one installation, each with an address of its own', () => {
		const second = valueOf(importDocument(JSON.stringify(smallSite()), 'Otto'));
		const third = valueOf(
			createRollout(
				{ name: 'Łódź – Hala 2', timeZone: 'Europe/Warsaw', from: '2027-01-01', until: '2027-12-31' },
				'Otto'
			)
		);
		expect([id, second.id, third.id]).toEqual(['mill-lane-depot', 'mill-lane-depot-2', 'odz-hala-2']);
		valueOf(editRollout(second.id, 'remove-entry', { collection: 'holds', at: 0 }, 'Otto'));
		expect(getRollout(id)?.document.privacy?.holds).toHaveLength(1);
		expect(listRollouts().map((row) => [row.id, row.people, row.doors])).toEqual([
			['mill-lane-depot-2', 3, 2],
			['odz-hala-2', 0, 0],
			['mill-lane-depot', 3, 2]
		]);
	});

	test('are created only when site and horizon are right', () => {
		expect(
			refusalOf(createRollout({ name: ' ', timeZone: 'Chicago', from: '2027-13-01', until: '2027-12-31' }, 'Nora'))
				.paths
		).toEqual(['$.name', '$.timeZone', '$.from']);
	});

	test('are deleted by name, restored, and erased for good', () => {
		expect(refusalOf(deleteRollout(id, 'Mill', 'Nora'))).toMatchObject({ why: 'conflict', paths: ['$.name'] });
		expect(refusalOf(eraseRollout(id, 'Mill Lane Depot'))).toMatchObject({ why: 'conflict' });
		valueOf(deleteRollout(id, 'Mill Lane Depot', 'Nora'));
		expect(getRollout(id)).toBeUndefined();
		expect(listRollouts()).toEqual([]);
		expect(listRemovedRollouts()).toMatchObject([{ id, removedBy: 'Nora' }]);
		expect(refusalOf(editRollout(id, 'put-entry', {}, 'Nora'))).toMatchObject({ why: 'not-found' });
		expect(valueOf(restoreRollout(id)).document).toEqual(smallSite());
		valueOf(deleteRollout(id, 'Mill Lane Depot', 'Nora'));
		valueOf(eraseRollout(id, 'Mill Lane Depot'));
		expect(listRemovedRollouts()).toEqual([]);
		expect(refusalOf(restoreRollout(id))).toMatchObject({ why: 'not-found' });
	});
});
