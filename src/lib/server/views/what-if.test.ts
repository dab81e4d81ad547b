import { expect, test } from 'vitest';
import { rolloutSchema } from '$lib/core/document/schema';
import { enrollSite } from '../../../../tests/support/enroll-site';
import { changesIn, changesText } from './what-if';

const rollout = rolloutSchema.parse(
	enrollSite({
		people: [{ id: 'p1' }],
		open: { desk: ['2027-01-11 08:00-12:00', '2027-01-12 22:00-02:00', '2027-01-13 20:00-23:30'] },
		more: {
			waves: [{ id: 'w1', enrollBy: '2027-01-30' as never }],
			awayLimits: [{ department: 'Packing', maxAway: 2 }]
		}
	})
);

function formOf(fields: Readonly<Record<string, string>>): FormData {
	const form = new FormData();
	for (const [name, value] of Object.entries(fields)) form.set(name, value);
	return form;
}

test('lanes and minutes of one station are one change; a stretch never grows past midnight', () => {
	const found = changesIn(rollout, formOf({ station: 'desk', lanes: '2', longer: '60' }));
	expect(found.ok && found.value.map(({ params }) => params.entry)).toMatchObject([
		{ lanes: 3, open: [{ at: '08:00-13:00' }, { at: '22:00-02:00' }, { at: '20:00-24:00' }] }
	]);
});

test('a limit is raised, a date moves over the end of a month, and both are told in words', () => {
	const found = changesIn(rollout, formOf({ limit: '0', raised: '1', wave: 'w1', later: '3' }));
	if (!found.ok) throw new Error('refused');
	expect(changesText(rollout, { edits: JSON.stringify(found.value) })).toEqual([
		'Packing: at most 3 away',
		'w1: enroll by 2027-02-02'
	]);
});

test('every fault is told at once, and nothing to try is one', () => {
	const found = changesIn(rollout, formOf({ lanes: 'two', raised: '1', later: '3' }));
	expect(found.ok ? [] : found.faults.map(({ path }) => path)).toEqual([
		'$.entry.lanes',
		'$.entry.limit',
		'$.entry.wave'
	]);
	expect(changesIn(rollout, formOf({})).ok).toBe(false);
});
