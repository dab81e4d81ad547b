import { describe, expect, test } from 'vitest';
import { done, messages, refusals, site } from '../../../../tests/support/edits';
import { smallSite } from '../../../../tests/support/small-site';
import type { CollectionName } from '../document/collections';
import { collectionNames, entriesOf } from '../document/lists';
import type { RolloutDocument } from '../document/schema';
import { applyEdit, edits } from './index';

describe('put-entry', () => {
	test('adds to a list, also to one that was not there', () => {
		const before = site({
			controllers: null,
			doors: [],
			doorGroups: [],
			readers: [],
			accessProfiles: [],
			assignments: []
		});
		const { document, rollout, what } = done('put-entry', { collection: 'controllers', entry: { id: 'c9' } }, before);
		expect(document.controllers).toEqual([{ id: 'c9' }]);
		expect(rollout.controllers[0]).toMatchObject({ id: 'c9', maxDoors: null });
		expect(what).toBe('Controller c9 added');
	});

	test('replaces by id, or by place where entries have no ids', () => {
		const entry = { person: '1001', from: '2027-03-01', until: null };
		const { document, what } = done('put-entry', { collection: 'absences', at: 0, entry });
		expect(document.absences).toEqual([entry]);
		expect(what).toBe('Absence of 1001 from 2027-02-01 changed to absence of 1001 from 2027-03-01');
		expect(refusals('put-entry', { collection: 'absences', at: 1, entry })).toEqual(['$.at']);
		expect(refusals('put-entry', { collection: 'absences', at: '0', entry })).toEqual(['$.at']);
		expect(refusals('put-entry', { collection: 'doors', at: 'mian', entry: { id: 'mian' } })).toEqual(['$.at (main?)']);
		expect(refusals('put-entry', { collection: 'doors', at: 0, entry: { id: 'main' } })).toEqual(['$.at']);
	});

	test('under another id takes along whatever names the entry', () => {
		const door = { id: 'front', from: 'street', to: 'lobby', controller: 'c1' };
		const { document, what } = done('put-entry', { collection: 'doors', at: 'main', entry: door });
		expect(document.doors?.[0]).toBe(door);
		expect(document.doorGroups?.[0]?.doors).toEqual(['front']);
		expect(document.readers?.[0]?.door).toBe('front');
		expect(what).toBe('Door main changed to door front');
	});

	test('tells every fault at the parameter that it came from', () => {
		const entry = { id: 'side', from: 'stret', to: 'lobby', exit: 'open', lock: 1 };
		expect(refusals('put-entry', { collection: 'doors', entry }).sort()).toEqual([
			'$.entry.exit',
			'$.entry.from (street?)',
			'$.entry.lock'
		]);
		expect(messages('put-entry', { collection: 'doors', entry })).toMatch(
			/^\$\.entry\.lock: found 1, expected one of the keys /m
		);
		expect(refusals('put-entry', { collection: 'doors', entry: { id: 'main', from: 'street', to: 'hall' } })).toEqual([
			'$.entry.id'
		]);
		expect(refusals('put-entry', { collection: 'door', entry: [], extra: 1 }).sort()).toEqual([
			'$.collection (doors?)',
			'$.entry',
			'$.extra (entry?)'
		]);
	});

	test('tells a fault elsewhere where it is: a reader stays on the old controller of its door', () => {
		const before = site({ controllers: [{ id: 'c1' }, { id: 'c2' }] });
		const entry = { id: 'main', from: 'street', to: 'lobby', controller: 'c2' };
		expect(refusals('put-entry', { collection: 'doors', at: 'main', entry }, before)).toEqual([
			'$.readers[0].controller'
		]);
	});

	test('is refused when the entry is no longer as it was seen', () => {
		const was = { ...smallSite().doors?.[0], name: 'Old name' };
		const entry = { id: 'main', from: 'street', to: 'lobby', controller: 'c1' };
		expect(refusals('put-entry', { collection: 'doors', at: 'main', entry, was })).toEqual(['$.was']);
		done('put-entry', { collection: 'doors', at: 'main', entry, was: smallSite().doors?.[0] });
	});
});

describe('remove-entry', () => {
	test('takes out what nothing names', () => {
		const { document, what } = done('remove-entry', { collection: 'doors', at: 'inner' });
		expect(document.doors?.map((door) => door.id)).toEqual(['main']);
		expect(what).toBe('Door inner removed');
		expect(done('remove-entry', { collection: 'holidays', at: 0 }).what).toBe(
			'Holiday 2027-05-31 Memorial Day removed'
		);
	});

	test('names everything that still uses an entry', () => {
		expect(messages('remove-entry', { collection: 'doors', at: 'main' }).split('\n')).toEqual([
			'Door main is used by door group perimeter. Change or remove what uses it first.',
			'Door main is used by reader r1. Change or remove what uses it first.'
		]);
		expect(messages('remove-entry', { collection: 'people', at: '1001' }).split('\n')).toEqual([
			'Person 1001 is used by absence of 1001 from 2027-02-01. Change or remove what uses it first.',
			'Person 1001 is used by assignment a1. Change or remove what uses it first.',
			'Person 1001 is used by booking of 1001 at s1, 2027-01-11 08:00. Change or remove what uses it first.',
			'Person 1001 is used by consent entry of 1001, given on 2027-01-05. Change or remove what uses it first.',
			'Person 1001 is used by template of 1001, enrolled on 2027-01-11. Change or remove what uses it first.'
		]);
	});

	test('holds back a long list in the sentence, not in the value', () => {
		const doors = Array.from({ length: 30 }, (_, n) => ({ id: `d${n}`, from: 'street', to: 'hall' }));
		const before = site({ doors, doorGroups: [], readers: [], accessProfiles: [], assignments: [] });
		const refused = applyEdit(before, 'remove-entry', { collection: 'areas', at: 'street' });
		if (refused.ok) throw new Error('this should have been refused');
		expect(refused.faults[0]?.message).toContain('; and 18 more.');
		expect((refused.faults[0]?.value as { usedBy: string[] }).usedBy).toHaveLength(30);
	});
});

describe('rename-entry', () => {
	test('changes the id wherever it is named', () => {
		const { document, what } = done('rename-entry', { collection: 'people', at: '1001', to: '2001' });
		expect(JSON.stringify(document)).not.toContain('"1001"');
		expect(document.assignments?.[0]?.who.people).toEqual(['2001']);
		expect(what).toBe('Person 1001 renamed to 2001');
		expect(
			done('rename-entry', { collection: 'areas', at: 'lobby', to: 'foyer' }).document.enrollment?.walks?.[0]?.between
		).toEqual(['hall', 'foyer']);
	});

	test('takes along the places of templates, unless a station and a controller share the id', () => {
		const { document } = done('rename-entry', { collection: 'controllers', at: 'c1', to: 'c2' });
		expect(document.privacy?.templates?.[0]?.storedOn).toEqual(['c2', 's1']);
		const shared = site({ controllers: [{ id: 'c1' }, { id: 's1' }] });
		const after = done('rename-entry', { collection: 'controllers', at: 's1', to: 's9' }, shared);
		expect(after.document.privacy?.templates?.[0]?.storedOn).toEqual(['c1', 's1']);
	});

	test('refuses an id that is taken or none, and a list without ids', () => {
		expect(refusals('rename-entry', { collection: 'people', at: '1001', to: '1002' })).toEqual(['$.to']);
		expect(refusals('rename-entry', { collection: 'people', at: '1001', to: '' })).toEqual(['$.to']);
		expect(refusals('rename-entry', { collection: 'people', at: '1091', to: '1' })).toEqual(['$.at (1001?)']);
		expect(refusals('rename-entry', { collection: 'holds', at: '1', to: '2' })).toEqual(['$.collection']);
	});
});

describe('set-part', () => {
	test('sets each part, and takes away what may be left out', () => {
		const values = {
			site: { name: 'Elsewhere', timeZone: 'UTC' },
			horizon: { from: '2027-02-01', until: '2027-02-02' },
			'holidays.coveredUntil': '2028-12-31',
			'enrollment.gridMinutes': 10,
			'enrollment.assumptions': { noShow: 0.1 },
			'privacy.regimes': ['eu'],
			'privacy.siteRules': { daysUnused: 90 },
			'privacy.erasureRules': { secondPerson: true }
		};
		for (const [part, value] of Object.entries(values)) {
			const { document } = done('set-part', { part, value });
			const [group, key] = part.split('.') as [keyof typeof document, string | undefined];
			expect(key === undefined ? document[group] : (document[group] as Record<string, unknown>)[key]).toEqual(value);
		}
		expect(done('set-part', { part: 'privacy.siteRules', value: null }).document.privacy).not.toHaveProperty(
			'siteRules'
		);
	});

	test('refuses with every fault at the value', () => {
		expect(refusals('set-part', { part: 'site', value: { name: '', timeZone: 'Chicago' } }).sort()).toEqual([
			'$.value.name',
			'$.value.timeZone'
		]);
		expect(refusals('set-part', { part: 'horizon', value: null })).toEqual(['$.value']);
		expect(refusals('set-part', { part: 'privacy.regimes', value: ['us-ill'] })).toEqual(['$.value[0] (us-il?)']);
		expect(refusals('set-part', { part: 'people', value: [] })).toEqual(['$.part']);
		expect(refusals('set-part', { part: 'site', value: { name: 'A', timeZone: 'UTC' }, was: { name: 'B' } })).toEqual([
			'$.was'
		]);
	});

	test('changes nothing when what is not there is taken away', () => {
		const before = site();
		expect(done('set-part', { part: 'enrollment.assumptions', value: null }, before).document).toBe(before.document);
	});
});

describe('add-holidays', () => {
	const days = [
		{ date: '2027-12-25', name: 'Christmas Day', kind: 'public' },
		{ date: '2027-01-18', kind: 'public' }
	];

	test('adds several in date order, behind those that are there', () => {
		const { document, what } = done('add-holidays', { days, coveredUntil: '2028-12-31' });
		expect(document.holidays?.days?.map((day) => day.date)).toEqual(['2027-05-31', '2027-01-18', '2027-12-25']);
		expect(document.holidays?.coveredUntil).toBe('2028-12-31');
		expect(what).toBe('2 holidays added; the list is complete up to 2028-12-31');
	});

	test('refuses a date that is listed already, or twice in what is added', () => {
		const twice = [...days, { date: '2027-05-31', kind: 'public' }, { date: '2027-12-25', kind: 'shutdown' }];
		expect(refusals('add-holidays', { days: twice })).toEqual(['$.days[2].date', '$.days[3].date']);
		expect(messages('add-holidays', { days: twice })).toContain('Memorial Day is on this one');
		expect(refusals('add-holidays', { days: [{ date: '2027-02-29', kind: 'public' }] })).toEqual(['$.days[0]']);
		expect(refusals('add-holidays', { days: [] })).toEqual(['$.days']);
	});
});

describe('set-bookings', () => {
	test('replaces all; one that stays is the same entry', () => {
		const before = site();
		const stays = { station: 's1', lane: 1, person: '1001', start: '2027-01-11T08:00', minutes: 8 };
		const added = { person: '1002', station: 's1', start: '2027-01-11T08:10', minutes: 8 };
		const change = done('set-bookings', { bookings: [added, stays] }, before);
		expect(change.document.enrollment?.bookings?.[1]).toBe(before.document.enrollment?.bookings?.[0]);
		expect(change.what).toBe('Bookings replaced: 1 before, 2 now');
		expect(change.params).toEqual({ bookings: 2 });
		expect(refusals('set-bookings', { bookings: [{ ...added, person: '1009' }] })).toEqual([
			'$.bookings[0].person (1001?)'
		]);
	});

	test('a fixed booking that a plan keeps stays fixed, though plans say nothing of that', () => {
		const plain = { person: '1001', station: 's1', lane: 1, start: '2027-01-11T08:00', minutes: 8 };
		const fixed = done('set-bookings', { bookings: [{ ...plain, fixed: true }] });
		const { document } = done('set-bookings', { bookings: [plain] }, fixed);
		expect(document.enrollment?.bookings?.[0]?.fixed).toBe(true);
		const moved = done('set-bookings', { bookings: [{ ...plain, start: '2027-01-11T09:00' }] }, fixed);
		expect(moved.document.enrollment?.bookings?.[0]?.fixed).toBeUndefined();
		const loose = done('set-bookings', { bookings: [{ ...plain, fixed: false }] }, fixed);
		expect(loose.document.enrollment?.bookings?.[0]?.fixed).toBe(false);
	});
});

/** Lists that came after the stored documents of the small site; an entry of each. */
const laterLists: Partial<Record<CollectionName, object>> = {
	templatePlaces: { id: 'nightly', kind: 'backup' },
	erasureOrders: { id: 'o1', person: '1001', enrolledOn: '2027-01-11', openedOn: '2027-05-01' },
	requests: { id: 'q1', person: '1002', kind: 'access', receivedOn: '2027-05-03' }
};

describe('all edits', () => {
	test('are named, described and have parameters', () => {
		for (const [name, edit] of edits) {
			expect(edit.name).toBe(name);
			expect(edit.summary).toMatch(/^[A-Z].*\.$/);
			expect(edit.params.safeParse(undefined).success).toBe(false);
		}
	});

	test('of a name that there is not offer the nearest', () => {
		expect(refusals('remove-entri', {})).toEqual(['$.edit (remove-entry?)']);
	});

	test('can add, change and remove an entry of every list', () => {
		for (const collection of collectionNames) {
			const [entry] = entriesOf(site().document, collection);
			const copy: Record<string, unknown> = { ...(entry ?? laterLists[collection]) };
			if ('id' in copy) copy['id'] = 'copy';
			if (collection === 'readers') copy['controller'] = 'c1';
			if (collection === 'notices') copy['version'] = '2.0';
			const added = done('put-entry', { collection, entry: copy });
			const place = entriesOf(added.document, collection).length - 1;
			const at = 'id' in copy ? 'copy' : place;
			const changed = done('put-entry', { collection, at, entry: { ...copy } }, added);
			expect(entriesOf(changed.document, collection)[place]).toEqual(copy);
			const removed = done('remove-entry', { collection, at }, changed);
			// A list that was not there stays, empty.
			expect(withoutEmptyLists(removed.document)).toEqual(withoutEmptyLists(smallSite()));
		}
	});
});

function withoutEmptyLists({ privacy, ...document }: RolloutDocument): unknown {
	const lists = Object.entries(privacy ?? {}).filter(([, value]) => !Array.isArray(value) || value.length > 0);
	return { ...document, privacy: Object.fromEntries(lists) };
}
