import { describe, expect, it } from 'vitest';
import { lengthOf } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import { readDocument } from '../document/read';
import { AccessModel } from './model';

/** A person with two schedules for room A in one profile, one of them for room B as well. */
function modelOfTwoRooms(): AccessModel {
	const read = readDocument(
		JSON.stringify({
			format: 'doorwright.rollout',
			version: 1,
			site: { name: 'Two rooms', timeZone: 'UTC' },
			horizon: { from: '2027-01-04', until: '2027-01-04' },
			areas: [{ id: 'street', outside: true }, { id: 'a' }, { id: 'b' }],
			doors: [
				{ id: 'room-a', from: 'street', to: 'a' },
				{ id: 'room-b', from: 'street', to: 'b' }
			],
			doorGroups: [
				{ id: 'only-a', doors: ['room-a'] },
				{ id: 'only-b', doors: ['room-b'] }
			],
			schedules: [
				{ id: 'one', week: { mon: ['08:00-10:00'] } },
				{ id: 'two', week: { mon: ['09:00-12:00'] } }
			],
			people: [{ id: 'p' }],
			accessProfiles: [
				{
					id: 'profile',
					entries: [
						{ doorGroup: 'only-a', schedule: 'one' },
						{ doorGroup: 'only-a', schedule: 'two' },
						{ doorGroup: 'only-b', schedule: 'one' }
					]
				}
			],
			assignments: [{ id: 'x', who: { everyone: true }, accessProfile: 'profile' }]
		}),
		{ regimes: [] }
	);
	if (!read.ok) throw new Error(JSON.stringify(read.faults));
	return new AccessModel(read.value.rollout);
}

describe('ONVIF Access Rules Service Specification: several policies for one access point are a union (V-ACC-01)', () => {
	const model = modelOfTwoRooms();
	const one = model.findClass('p');
	if (!one) throw new Error('no such person');
	const hoursAt = (door: string) =>
		model
			.doorSpansOf(one, model.building.doorPlaceById.get(door) ?? -1)
			.map(({ from, to }) => [from, to].map((at) => model.zone.textOf(at as Instant).slice(11, 16)).join('-'));

	it('room A has the hours of both schedules, room B of one', () => {
		expect(hoursAt('room-a')).toEqual(['08:00-12:00']);
		expect(hoursAt('room-b')).toEqual(['08:00-10:00']);
	});

	it('the union is as long as both together without the hour that they share', () => {
		const length = (schedule: string) => lengthOf(model.openSpans(schedule)) / 3600;
		expect(length('one') + length('two') - 1).toBe(4);
	});
});
