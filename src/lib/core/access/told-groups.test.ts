import { describe, expect, it } from 'vitest';
import { rolloutOf } from '../../../../tests/agreement/agree';
import { toldGroups } from './told-groups';

const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri'];
const people = Array.from({ length: 12 }, (_, place) => ({
	id: `p${String(place).padStart(2, '0')}`,
	name: `Person ${place}`,
	department: place < 7 ? 'Packing' : 'Office',
	shiftPattern: place < 3 ? 'night' : null,
	...(place === 6 ? { startsOn: '2027-06-01' } : {})
}));

function site(packing: string, office = '08:00-17:00', rest: object = {}) {
	const week = (stretch: string) => Object.fromEntries(weekdays.map((day) => [day, [stretch]]));
	return rolloutOf({
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Site', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-12-31' },
		areas: [{ id: 'street', outside: true }, { id: 'hall' }],
		doors: ['a', 'b', 'c'].map((id) => ({ id, name: `Door ${id}`, from: 'street', to: 'hall' })),
		doorGroups: [
			{ id: 'cold', name: 'Cold rooms', doors: ['a', 'b'] },
			{ id: 'front', doors: ['c'] }
		],
		schedules: [
			{ id: 'packing', week: week(packing) },
			{ id: 'office', week: week(office) }
		],
		shiftPatterns: [{ id: 'night', name: 'Nights', anchor: '2027-01-04', cycleDays: 1 }],
		people,
		accessProfiles: [
			{ id: 'packing', entries: [{ doorGroup: 'cold', schedule: 'packing' }] },
			{ id: 'office', entries: [{ doorGroup: 'front', schedule: 'office' }] }
		],
		assignments: [
			{ id: 'p', who: { departments: ['Packing'] }, accessProfile: 'packing' },
			{ id: 'o', who: { everyone: true }, accessProfile: 'office' }
		],
		...rest
	} as never);
}

describe('changes in groups', () => {
	it('tells of one changed schedule by department and door group, those who start later in the same group', () => {
		const { total, groups } = toldGroups(site('06:00-14:00'), site('07:00-14:00'));
		expect(total).toEqual({ people: 7, doors: 2, gain: 0, lose: 7 });
		expect(groups).toHaveLength(1);
		expect(groups[0]).toMatchObject({
			who: 'all 7 people of Packing',
			where: 'the 2 doors of Cold rooms',
			gained: null
		});
		// 52 weeks of five days, less Saturday 1 January of the next year: 260 weekdays; from 1 June on 154.
		expect(groups[0]?.lost).toMatchObject({
			least: 154 * 60,
			most: 260 * 60,
			inAll: (6 * 260 + 154) * 60 * 2,
			when: ['Mondays to Fridays 06:00–07:00, 260 times']
		});
		expect(groups[0]?.variants.map(({ who, lost }) => [who, lost])).toEqual([
			['6 of the 7 people of Packing: Person 0, Person 1, Person 2 and 3 more', 15600],
			['Person 6', 9240]
		]);
	});

	it('puts losses first, and says everybody', () => {
		const { groups } = toldGroups(site('06:00-14:00'), site('05:00-14:00', '08:00-16:00'));
		expect(groups.map(({ who, where, lost }) => [who, where, lost === null])).toEqual([
			['everybody (12 people)', 'Door c', false],
			['all 7 people of Packing', 'the 2 doors of Cold rooms', true]
		]);
	});

	it('names the shift where it is exactly those on it', () => {
		const night = { people: people.map((one) => (one.shiftPattern === null ? one : { ...one, department: 'Stores' })) };
		const { groups } = toldGroups(site('06:00-14:00'), site('06:00-14:00', '08:00-17:00', night));
		expect(groups.map(({ who }) => who)).toEqual(['all 3 people of Stores']);
	});
});
