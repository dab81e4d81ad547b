import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadDemoOnFirstStart } from '../../src/lib/server/demo';
import {
	exportDocument,
	getProposal,
	getRollout,
	listChanges,
	listRemovedRollouts,
	listRollouts,
	restoreRollout,
	undo,
	verifyRollout
} from '../../src/lib/server/rollouts';
import { migrations } from '../../src/lib/server/store/migrations';
import { useDataFolder } from '../support/data-folder';
import { valueOf } from '../support/outcomes';
import { smallSite as siteOfToday } from '../support/small-site';

const folder = path.resolve('tests/store/versions');
const versions = readdirSync(folder).sort();

/** The small site as those versions wrote it: there was no record of visits. */
function smallSite(): ReturnType<typeof siteOfToday> {
	const site = siteOfToday();
	const enrollment = { ...site.enrollment };
	delete enrollment.visits;
	return { ...site, enrollment };
}

let data: ReturnType<typeof useDataFolder>;
beforeEach(() => (data = useDataFolder()));
afterEach(() => data.end());

test('there is a database of every version up to the present one', () => {
	expect(versions).toEqual(migrations.map(({ version }) => `${String(version).padStart(4, '0')}.sql`));
});

describe.each(versions)('a database that version %s wrote', (version) => {
	beforeEach(() => {
		const db = new Database(path.join(data.folder, 'doorwright.sqlite'));
		db.exec(readFileSync(path.join(folder, version), 'utf8'));
		db.close();
	});

	test('opens with its rollouts, their history and their proposals', () => {
		const changed = smallSite();
		const document = {
			...changed,
			doors: [changed.doors?.[0], { id: 'inner', from: 'lobby', to: 'hall', name: 'Inner door' }],
			enrollment: { ...changed.enrollment, bookings: [] },
			privacy: { ...changed.privacy, holds: [] }
		};
		expect(listRollouts()).toMatchObject([{ id: 'mill-lane-depot', people: 3, doors: 2, lastChange: 6 }]);
		expect(JSON.parse(valueOf(exportDocument('mill-lane-depot')))).toEqual(document);
		expect(valueOf(listChanges('mill-lane-depot')).map(({ what, who }) => `${what}, by ${who}`)).toEqual([
			'Bookings replaced: 1 before, 0 now, by Nora',
			'Redone: Hold on 1002 from 2027-05-01 removed, by Nora',
			'Taken back: Hold on 1002 from 2027-05-01 removed, by Nora',
			'Hold on 1002 from 2027-05-01 removed, by Otto',
			'Door inner changed, by Otto',
			'Document imported, by Nora'
		]);
		expect(valueOf(getProposal('mill-lane-depot', 1))).toMatchObject({ adoptedBy: 6, value: { bookings: [] } });
	});

	test('has a record that fits, sealed when it was opened where that version did not', () => {
		for (const id of ['mill-lane-depot', 'gone']) {
			expect(valueOf(verifyRollout(id))).toMatchObject({ rollout: id, breaks: [], clockSetBack: [] });
		}
		valueOf(undo('mill-lane-depot', 'Nora'));
		expect(valueOf(verifyRollout('mill-lane-depot'))).toMatchObject({ changes: 7, head: { number: 7 }, breaks: [] });
	});

	test('lets its changes be taken back', () => {
		for (let n = 0; n < 3; n++) valueOf(undo('mill-lane-depot', 'Nora'));
		expect(getRollout('mill-lane-depot')?.document).toEqual(smallSite());
	});

	test('keeps what was deleted, and is not taken for a first start', () => {
		expect(listRemovedRollouts()).toMatchObject([{ id: 'gone', removedBy: 'Nora' }]);
		expect(valueOf(restoreRollout('gone')).name).toBe('Gone');
		expect(loadDemoOnFirstStart()).toEqual([]);
		expect(listRollouts()).toHaveLength(2);
	});
});
