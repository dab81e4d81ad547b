import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { newRoster, keepRoster, findRoster } from '../../src/lib/server/roster-drafts';
import { rememberDecisions } from '../../src/lib/server/roster-memory';
import { noteCopy, listCopies } from '../../src/lib/server/copies';
import { previewRemoval, removePeople } from '../../src/lib/server/remove-people';
import {
	editRollout,
	exportDocument,
	getChange,
	importDocument,
	issueRollout,
	issuedDocument,
	listChanges,
	needRollout,
	rolloutAt,
	undo,
	undoState,
	verifyRollout
} from '../../src/lib/server/rollouts';
import { store } from '../../src/lib/server/store/current';
import { useDataFolder } from '../support/data-folder';
import { refusalOf, valueOf } from '../support/outcomes';
import { smallSite } from '../support/small-site';

// Everything that the data folder holds is searched for what the removed were called, byte by byte, as `strings` would.

let data: ReturnType<typeof useDataFolder>;
let id: string;

const goes = ['Ada Quill', 'Ada Quillfeather', 'ada.quill@example.org', '77001001', 'Zoë Ünal-Roth', '77009009'];
const stays = ['Ben Marsh', 'Cleo Tarn'];

beforeEach(() => {
	data = useDataFolder();
	const text = JSON.stringify(smallSite()).replaceAll('1001', '77001001');
	const document = JSON.parse(text) as ReturnType<typeof smallSite>;
	const people = (document.people ?? []).map((one) =>
		one.id === '77001001' ? { ...one, email: 'ada.quill@example.org' } : one
	);
	id = valueOf(importDocument(JSON.stringify({ ...document, people }), 'Nora')).id;
});
afterEach(() => data.end());

const edit = (name: string, params: unknown, who = 'Nora') => valueOf(editRollout(id, name, params, who));
const open = () => valueOf(needRollout(id));

/** Where a text stands in the files of the data folder, as UTF-8 and as UTF-16 of either order. */
function found(text: string): string[] {
	const files = readdirSync(data.folder);
	const forms = [Buffer.from(text, 'utf8'), Buffer.from(text, 'utf16le'), Buffer.from(text, 'utf16le').swap16()];
	return files.filter((file) => {
		const bytes = readFileSync(path.join(data.folder, file));
		return forms.some((form) => bytes.includes(form));
	});
}

function prepare(): void {
	const person = { id: '77001001', department: 'Packing', shiftPattern: 'early', workAreas: ['hall'], wave: 'w1' };
	edit('put-entry', {
		collection: 'people',
		at: '77001001',
		entry: { ...person, name: 'Ada Quillfeather', email: 'ada.quill@example.org' }
	});
	edit('put-entry', { collection: 'people', at: '77001001', entry: { ...person, name: 'Ada Quill' } }, 'Ada Quill');
	edit('put-entry', { collection: 'people', entry: { id: '77009009', name: 'Zoë Ünal-Roth' } });
	edit('put-entry', {
		collection: 'doors',
		at: 'main',
		entry: { id: 'main', name: 'Gate', from: 'street', to: 'lobby', controller: 'c1', owner: 'Zoë Ünal-Roth' }
	});
	edit('put-entry', {
		collection: 'schedules',
		at: 'office',
		entry: { id: 'office', name: 'Day', week: { mon: ['07:00-18:00'] }, holidays: { public: 'closed' } }
	});
	valueOf(issueRollout(id, 'For Ada Quill', 'Nora'));
	edit('set-part', { part: 'privacy.office', value: { removePeopleAfterDays: 0 } });
	const proposal = { answer: 'plan', params: {}, revision: 'r', at: '2026-01-01', who: 'Nora', isStoppedEarly: false };
	store().proposals.add(id, { ...proposal, seconds: 1, value: { bookings: [{ person: '77001001' }] } });
	rememberDecisions(id, { kept: [], apart: [['77001001', '1002']] }, () => true);
	store().directory.add(id, {
		id: 'u-1',
		user: { userName: 'ada.quill@example.org' },
		person: '77001001',
		endedOn: null,
		createdAt: '2026-01-01T00:00:00Z',
		modifiedAt: '2026-01-01T00:00:00Z'
	});
	noteCopy(id, 'people', 'list People', 'people.csv', 'Ada Quill');
	writeFileSync(path.join(data.folder, 'doorwright.sqlite.version-2'), 'old copy with Ada Quill');
}

/** Everything that keeps the people is done: the template erased everywhere. */
function eraseTemplate(): void {
	const template = { person: '77001001', enrolledOn: '2025-01-11', storedOn: ['c1'] };
	const erasures = [{ from: 'c1', on: '2025-02-02', by: 'Ada Quill' }];
	edit('put-entry', { collection: 'templates', at: 0, entry: { ...template, erasures } });
}

test('people who were removed are found nowhere in the files, and the chain still holds', async () => {
	prepare();
	for (const text of goes) expect(found(text), text).not.toEqual([]);
	const only = ['77001001', '77009009'];
	expect(refusalOf(await removePeople(id, 'Mill Lane Depot', 'Nora', only))).toMatchObject({ why: 'conflict' });
	eraseTemplate();
	expect(refusalOf(await removePeople(id, 'Mill Lane', 'Nora', only))).toMatchObject({ paths: ['$.name'] });
	const draft = keepRoster(newRoster(id, 'list.csv', new TextEncoder().encode('Ada Quill')));
	const preview = previewRemoval(open(), only);
	expect(preview.people.map(({ person }) => person)).toEqual(only);
	expect(preview.touched).toEqual({ changes: 5, proposals: 1, issues: 1, providerUsers: 1 });
	expect(preview.databaseCopies).toEqual(['doorwright.sqlite.version-2']);

	const before = valueOf(listChanges(id)).length;
	expect(valueOf(await removePeople(id, 'Mill Lane Depot', 'Nora', only))).toMatchObject({ people: 2, isWiped: true });
	for (const text of goes) expect(found(text), text).toEqual([]);
	for (const text of stays) expect(found(text), text).not.toEqual([]);
	expect(findRoster(id, draft.id)).toBeUndefined();

	// What happened is kept without who, and the chain holds.
	const changes = valueOf(listChanges(id));
	expect(changes).toHaveLength(before + 1);
	expect(changes[0]).toMatchObject({ edit: 'remove-people', what: '2 people removed for good', pieces: 0 });
	expect(changes.filter(({ redactedBy }) => redactedBy !== null)).toHaveLength(5);
	expect(
		changes.find(({ edit: kind, what }) => kind === 'put-entry' && what.startsWith('put-entry in people'))?.what
	).toBe('put-entry in people; content taken out when people were removed');
	const verified = valueOf(verifyRollout(id));
	expect(verified).toMatchObject({ breaks: [], redacted: 5 });

	// The document can still be read, and what is about others is as it was.
	const left = valueOf(exportDocument(id));
	expect(left).not.toMatch(/7700/);
	expect(open().document.doors?.[0]).toMatchObject({ name: 'Gate', owner: '(removed)' });
	expect(open().document.people?.map(({ id: one }) => one)).toEqual(['1002', '1003']);
	expect(refusalOf(issuedDocument(id, 'A')).why).toBe('not-found');
	expect(listCopies(id)).toMatchObject([{ what: 'list People', who: '', destroyedOn: null }]);
});

test('a removal is not taken back, nor is what it emptied; later changes are', async () => {
	eraseTemplate();
	valueOf(await removePeople(id, 'Mill Lane Depot', 'Nora', ['77001001']));
	const [removal, emptied] = valueOf(listChanges(id));
	expect(undoState(id).undo).toBeNull();
	for (const number of [removal?.number, emptied?.number])
		expect(refusalOf(undo(id, 'Nora', number)).why).toBe('conflict');
	expect(refusalOf(rolloutAt(open(), 1)).why).toBe('not-found');
	const entry = { id: 'hall', name: 'Great hall' };
	edit('put-entry', { collection: 'areas', at: 'hall', entry });
	expect(undoState(id).undo?.what).toMatch(/^Area hall/);
	valueOf(undo(id, 'Nora'));
	expect(valueOf(getChange(id, removal?.number ?? 0)).touched).toEqual([]);
	expect(valueOf(verifyRollout(id)).breaks).toEqual([]);
});

test('a second removal leaves what the first emptied as it is', async () => {
	eraseTemplate();
	edit('put-entry', { collection: 'people', entry: { id: '88', name: 'Xu' } });
	edit('put-entry', { collection: 'people', entry: { id: '77009009', name: 'Zoë Ünal-Roth' } });
	valueOf(await removePeople(id, 'Mill Lane Depot', 'Nora', ['77001001']));
	valueOf(await removePeople(id, 'Mill Lane Depot', 'Zoë Ünal-Roth', ['77009009', '88']));
	for (const text of ['Zoë Ünal-Roth', '77009009', 'Ada Quill']) expect(found(text), text).toEqual([]);
	expect(valueOf(verifyRollout(id))).toMatchObject({ breaks: [] });
	expect(valueOf(listChanges(id))[0]).toMatchObject({ who: '' });
});

test('nobody is due without days or before them', async () => {
	expect(refusalOf(await removePeople(id, 'Mill Lane Depot', 'Nora'))).toMatchObject({ paths: ['$.people'] });
});
