import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LocalDateTime } from '../calendar/local-date-time';
import { unwatched } from '../kernel/work';
import explain from './explain';
import { readRollout } from './support/read-rollout';
import who from './who';

const read = readRollout(readFileSync('demo-data/larkfen-cold-store.json'));
if (!read.ok) throw new Error('the demo is refused');
const { rollout } = read.value;
const at = (text: string) => text as LocalDateTime;

async function ask(params: Parameters<typeof who.run>[1], from = rollout) {
	const answer = await who.run(from, params, unwatched);
	if (!answer.ok) throw new Error(answer.faults.map(({ message }) => message).join('\n'));
	return answer.value;
}

describe('who may open a door at a moment', () => {
	it.each(['2027-12-24T02:30', '2027-05-31T05:45', '2027-03-14T02:30', '2027-11-07T01:30', '2027-06-14T14:00'])(
		'agrees with "explain" of everybody, at %s',
		async (moment) => {
			const { people, count } = await ask({ door: 'cold-1', at: at(moment) });
			expect(count).toBe(people.length);
			const expected = [];
			for (const { id } of rollout.people.filter((_, place) => place % 5 === 0)) {
				const answer = await explain.run(rollout, { person: id, door: 'cold-1', at: at(moment) }, unwatched);
				if (answer.ok && answer.value.allowed) expected.push([id, answer.value.route !== null]);
			}
			const sample = new Set(rollout.people.filter((_, place) => place % 5 === 0).map(({ id }) => id));
			expect(people.filter(({ person }) => sample.has(person)).map((one) => [one.person, one.canReach])).toEqual(
				expected
			);
		}
	);

	it('of an area are all doors that lead into it, each person once with the doors that are theirs', async () => {
		const { doors, people } = await ask({ area: 'cold', at: at('2027-06-14T02:30') });
		expect(doors).toEqual(['cold-1', 'cold-2', 'cold-pass', 'engine-cold']);
		expect(new Set(people.map(({ person }) => person)).size).toBe(people.length);
		const ways = new Set(people.map((one) => one.doors.join()));
		expect(ways).toContain('cold-1,cold-2,cold-pass');
		expect(ways).toContain('cold-1,cold-2,cold-pass,engine-cold');
	});

	it('of a department only', async () => {
		const night = await ask({ door: 'cold-1', at: at('2027-06-14T02:30'), department: 'Night crew' });
		expect(night.count).toBeGreaterThan(0);
		expect(new Set(night.people.map(({ department }) => department))).toEqual(new Set(['Night crew']));
	});

	it('refuses an unknown door, area or department with the nearest, and tells every fault', async () => {
		const answer = await who.run(
			rollout,
			{ door: 'cold1', at: at('2027-06-14T02:30'), department: 'Packin' },
			unwatched
		);
		expect(answer.ok ? [] : answer.faults.map(({ path, nearest }) => [path, nearest])).toEqual([
			['$.door', 'cold-1'],
			['$.department', 'Packing']
		]);
		const none = await who.run(rollout, { at: at('2027-06-14T02:30') }, unwatched);
		expect(none.ok ? [] : none.faults.map(({ path }) => path)).toEqual(['$.door']);
		const both = await who.run(rollout, { door: 'cold-1', area: 'cold', at: at('2027-06-14T02:30') }, unwatched);
		expect(both.ok ? [] : both.faults.map(({ path }) => path)).toEqual(['$.area']);
	});

	it('says it to a person', async () => {
		const params = { door: 'cold-1', at: at('2027-06-14T02:30') };
		const lines = who.text(await ask(params), rollout, params).split('\n');
		expect(lines[0]).toMatch(/^\d+ people may open Cold room 1 from the dock on Mon 14 June 2027 at 02:30\.$/);
		expect(lines.find((line) => line.startsWith('person'))).toMatch(/person +name +department +doors/);
		const nobody = { door: 'cold-1', at: at('2020-06-14T02:30') };
		expect(who.text(await ask(nobody), rollout, nobody)).toBe(
			'Nobody may open Cold room 1 from the dock on Sun 14 June 2020 at 02:30.'
		);
	});
});
