import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanArea, PlanDoor } from './area-graph';
import { type AreaPlan, areaPlan } from './area-plan';
import { type Room, doorSlot, wrapped } from './plan-shapes';
import { type Rect, overlaps } from './scale';

const area = (id: string, isOutside = false): PlanArea => ({ id, name: id, isOutside });
const door = (from: string, to: string, id = `${from}>${to}`): PlanDoor => ({
	id,
	name: id,
	from,
	to,
	isExitFree: true
});

/** What must hold of every plan, whatever the building. */
function expectSound(plan: AreaPlan, areas: readonly PlanArea[], doors: readonly PlanDoor[]) {
	expect(plan.rooms.map((room) => room.id).sort()).toEqual(areas.map((one) => one.id).sort());
	const grounds = plan.rooms.flatMap((room) => rectsOf(room).map((rect) => ({ id: room.id, rect })));
	grounds.forEach(({ id, rect }, place) => {
		for (const other of grounds.slice(place + 1)) {
			if (overlaps(rect, other.rect)) throw new Error(`${id} and ${other.id} overlap`);
		}
	});
	const roomById = new Map(plan.rooms.map((room) => [room.id, room]));
	const onWall = new Map(plan.doors.map((one) => [one.id, one]));
	for (const one of doors) {
		const [from, to] = [roomById.get(one.from), roomById.get(one.to)];
		const placed = onWall.get(one.id);
		if (!from || !to) throw new Error(`${one.id} has lost an area`);
		if (placed) {
			if (!isOnEdge(placed, from) || !isOnEdge(placed, to)) throw new Error(`${one.id} is not on both walls`);
		} else {
			const called = [from, to].every((room) => room.callouts.some((callout) => callout.door === one.id));
			if (!called) throw new Error(`${one.id} is neither on a wall nor called out`);
		}
	}
	const spots = plan.doors.map((one) => `${one.x} ${one.y}`);
	expect(new Set(spots).size).toBe(spots.length);
}

function rectsOf(room: Room): readonly Rect[] {
	return [room.rect, ...room.ground];
}

function isOnEdge({ x, y }: { x: number; y: number }, room: Room) {
	return rectsOf(room).some((rect) => {
		const [right, bottom] = [rect.x + rect.width, rect.y + rect.height];
		const isOnSide = (x === rect.x || x === right) && y > rect.y && y < bottom;
		const isOnEnd = (y === rect.y || y === bottom) && x > rect.x && x < right;
		return isOnSide || isOnEnd;
	});
}

describe('a small building', () => {
	const areas = ['lobby', 'packing', 'cold', 'offices', 'dispatch'].map((id) => area(id));
	areas.unshift(area('street', true));
	const doors = [
		door('street', 'lobby'),
		door('lobby', 'packing'),
		door('packing', 'cold'),
		door('lobby', 'offices'),
		door('packing', 'dispatch'),
		door('offices', 'dispatch')
	];

	test('every door is on the wall between its two rooms', () => {
		const plan = areaPlan(areas, doors);
		expectSound(plan, areas, doors);
		expect(plan.doors).toHaveLength(6);
	});

	test('it is walked into from the left', () => {
		const plan = areaPlan(areas, doors);
		const left = new Map(plan.rooms.map((room) => [room.id, room.rect.x]));
		expect(left.get('street')).toBe(0);
		expect(left.get('lobby')).toBeLessThan(left.get('packing') ?? 0);
		expect(left.get('packing')).toBeLessThan(left.get('cold') ?? 0);
		expect(plan.doors.find((one) => one.id === 'lobby>packing')?.facing).toBe('right');
	});

	test('a door is numbered by its place in the list', () => {
		expect(areaPlan(areas, doors).doors.find((one) => one.id === 'packing>cold')?.number).toBe(3);
	});

	test('the way of a door is kept, also against the way in', () => {
		const turned = areaPlan([area('street', true), area('yard')], [door('yard', 'street')]);
		expect(turned.doors[0]?.facing).toBe('left');
	});
});

test('two doors between the same rooms stand apart', () => {
	const doors = [door('street', 'hall', 'a'), door('street', 'hall', 'b')];
	const plan = areaPlan([area('street', true), area('hall')], doors);
	expect(Math.abs((plan.doors[0]?.y ?? 0) - (plan.doors[1]?.y ?? 0))).toBeGreaterThanOrEqual(doorSlot);
});

test('what no chain of doors leads to stands apart, and is said to be cut off', () => {
	const areas = [area('street', true), area('hall'), area('vault'), area('cage')];
	const doors = [door('street', 'hall'), door('vault', 'cage')];
	const plan = areaPlan(areas, doors);
	expectSound(plan, areas, doors);
	expect(plan.rooms.filter((room) => room.isCutOff).map((room) => room.id)).toEqual(['vault', 'cage']);
});

test('rooms that all have a door to the ground outside are moved to where their other doors fit as well', () => {
	const inside = ['offices', 'lockers', 'packing', 'dock', 'engine'];
	const areas = [area('yard', true), ...inside.map((id) => area(id)), area('cold')];
	const between = [
		'offices lockers',
		'lockers packing',
		'packing dock',
		'dock engine',
		'offices packing',
		'lockers dock'
	];
	const doors = [
		...inside.map((id) => door('yard', id)),
		...[...between, 'packing cold', 'dock cold', 'engine cold'].map((pair) =>
			door(pair.split(' ')[0] ?? '', pair.split(' ')[1] ?? '')
		)
	];
	const plan = areaPlan(areas, doors);
	expectSound(plan, areas, doors);
	expect(plan.doors).toHaveLength(doors.length);
});

test('five rooms that all have doors to each other do not fit into a plane: one door at least is called out', () => {
	const ids = ['street', 'b', 'c', 'd', 'e'];
	const areas = ids.map((id) => area(id, id === 'street'));
	const doors = ids.flatMap((from, place) => ids.slice(place + 1).map((to) => door(from, to)));
	const plan = areaPlan(areas, doors);
	expectSound(plan, areas, doors);
	expect(plan.doors.length).toBeLessThan(doors.length);
});

test('a door that leads back into its own area is called out there', () => {
	const plan = areaPlan([area('street', true)], [door('street', 'street')]);
	expect(plan.rooms[0]?.callouts).toEqual([{ door: 'street>street', number: 1, other: 'street' }]);
});

test('a part of a building: doors that lead out of it are left out, the others keep their numbers', () => {
	const plan = areaPlan([area('street', true), area('hall')], [door('hall', 'vault'), door('street', 'hall')]);
	expect(plan.doors.map(({ id, number }) => [id, number])).toEqual([['street>hall', 2]]);
});

test('no areas, no plan', () => {
	expect(areaPlan([], [])).toEqual({ width: 0, height: 0, rooms: [], doors: [] });
});

describe('any building', () => {
	const building = fc.integer({ min: 1, max: 14 }).chain((count) =>
		fc.record({
			areas: fc
				.array(fc.integer({ min: 0, max: 5 }), { minLength: count, maxLength: count })
				.map((draws) => draws.map((draw, place) => area(`a${place}`, draw === 0))),
			doors: fc
				.array(fc.tuple(fc.nat({ max: count - 1 }), fc.nat({ max: count - 1 })), { maxLength: 24 })
				.map((ends) => ends.map(([from, to], place) => door(`a${from}`, `a${to}`, `d${place}`)))
		})
	);

	test('rooms never overlap, and every door is on the common wall or called out in both rooms', () => {
		fc.assert(
			fc.property(building, ({ areas, doors }) => {
				expectSound(areaPlan(areas, doors), areas, doors);
			}),
			{ numRuns: 400 }
		);
	});

	test('the same building gives the same plan', () => {
		fc.assert(
			fc.property(building, ({ areas, doors }) => {
				expect(areaPlan(structuredClone(areas), structuredClone(doors))).toEqual(areaPlan(areas, doors));
			})
		);
	});

	test('without circles, every door is on a wall', () => {
		const tree = fc.array(fc.tuple(fc.nat(), fc.boolean()), { minLength: 1, maxLength: 25 }).map((draws) => ({
			areas: [area('a0', true), ...draws.map((_, place) => area(`a${place + 1}`))],
			doors: draws.map(([draw, isTurned], place) => {
				const [parent, child] = [`a${draw % (place + 1)}`, `a${place + 1}`];
				return isTurned ? door(child, parent) : door(parent, child);
			})
		}));
		fc.assert(
			fc.property(tree, ({ areas, doors }) => {
				const plan = areaPlan(areas, doors);
				expectSound(plan, areas, doors);
				expect(plan.doors).toHaveLength(doors.length);
			}),
			{ numRuns: 300 }
		);
	});
});

test('names are wrapped between words', () => {
	expect(wrapped('Cold store engine room')).toEqual(['Cold store', 'engine room']);
	expect(wrapped('Qualitätssicherungslabor')).toEqual(['Qualitätssicherungslabor']);
});
