import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import type { LocalDateTime } from '$lib/core/calendar/local-date-time';
import { explainedView } from './explained';

const read = readRollout(readFileSync('demo-data/larkfen-cold-store.json'));
if (!read.ok) throw new Error('the demo is refused');
const { rollout } = read.value;

function view(person: string, door: string, at: string) {
	const one = rollout.people.find(({ id }) => id === person);
	if (!one) throw new Error(person);
	return explainedView(rollout, one, door, at as LocalDateTime);
}

describe('the chain that is drawn', () => {
	test('of a yes holds at every link, and each leads to where it is edited', () => {
		const { state, chains, route, next } = view('00106', 'cold-1', '2027-06-08T14:30');
		expect([state, next]).toEqual(['may', null]);
		expect(chains.map(({ holds }) => holds)).toEqual([true]);
		expect(chains[0]?.links.map(({ role, path, broken }) => [role, path, broken])).toEqual([
			['person', 'people/00106', null],
			['assignment', 'profiles?assignment=a-floor#assignments', null],
			['profile', 'profiles?profile=floor-days#profiles', null],
			['door group', 'site?group=cold-rooms#groups', null],
			['schedule', 'schedules/floor-days', null],
			['hours', 'schedules/floor-days', null],
			['door', 'site?door=cold-1#doors', null]
		]);
		expect(route.map(({ id, opens }) => [id, opens])).toEqual([
			['drivers', true],
			['cold-1', true]
		]);
	});

	test('of a no is broken where its reason is, and what comes after does not count', () => {
		const closed = view('00106', 'cold-1', '2027-05-31T14:30').chains[0];
		expect(closed?.links.map(({ broken }) => broken)).toEqual([
			null,
			null,
			null,
			null,
			null,
			'closed on this holiday',
			null
		]);
		expect(closed?.links[5]?.path).toBe('holidays?date=2027-05-31');
		expect(closed?.links.map(({ isBeyond }) => isBeyond)).toEqual([false, false, false, false, false, false, true]);
		const early = view('00106', 'cold-1', '2027-01-10T03:00').chains[0];
		expect(early?.links.map(({ broken }) => broken)).toEqual([
			null,
			'not in force',
			null,
			null,
			null,
			'closed then',
			null
		]);
		const lacking = view('00106', 'engine-outer', '2027-06-08T14:30');
		expect(lacking.chains[0]?.links.map(({ broken }) => broken)).toContain('lacks the door');
		expect(lacking.next).toBeNull();
	});

	test('of a door that opens and cannot be reached is broken at the door, and names the doors on the way', () => {
		const fitter = rollout.people.find(({ job }) => job === 'Sprinkler fitter');
		const { state, chains, route } = view(fitter?.id ?? '', 'engine-inner', '2027-06-08T10:00');
		expect(state).toBe('may, cannot get there');
		expect(chains[0]?.links.at(-1)?.broken).toBe('cannot be reached');
		expect(route.at(-1)).toMatchObject({ id: 'engine-inner', opens: true });
		expect(route.slice(0, -1).every(({ opens }) => !opens)).toBe(true);
		expect(route.length).toBeGreaterThan(1);
	});

	test('of somebody whom no assignment matches breaks off after the person', () => {
		const alone = { ...rollout, assignments: [] };
		const [person] = alone.people;
		if (!person) throw new Error('nobody');
		const { chains } = explainedView(alone, person, 'cold-1', '2027-06-08T10:00' as LocalDateTime);
		expect(chains[0]?.links.map(({ role, broken }) => [role, broken])).toEqual([
			['person', null],
			['assignment', 'none matches'],
			['door', null]
		]);
	});
});
