import type { PlanDoor } from './area-graph';
import type { DoorOnWall, OuterWall } from './plan-shapes';
import type { Rect } from './scale';

type Facing = DoorOnWall['facing'];

const inward: Readonly<Record<OuterWall['side'], Facing>> = { left: 'right', right: 'left', top: 'down', bottom: 'up' };
const turned: Readonly<Record<Facing, Facing>> = { right: 'left', left: 'right', down: 'up', up: 'down' };

/** Doors of one pair of rooms, spread evenly over the wall that the rooms share. */
export function doorsOnWall(
	group: readonly PlanDoor[],
	rectById: ReadonlyMap<string, Rect>,
	outerWalls: ReadonlyMap<string, OuterWall>,
	numbers: ReadonlyMap<string, number>
): DoorOnWall[] {
	return group.map((door, place) => {
		const share = (start: number, end: number) => start + ((end - start) * (place + 0.5)) / group.length;
		const outer = outerWallOf(door, outerWalls);
		const spot = outer
			? onOuterWall(outer, rectById.get(outer.room) as Rect, share)
			: onCommonWall(rectById.get(door.from) as Rect, rectById.get(door.to) as Rect, share);
		return { id: door.id, number: numbers.get(door.id) ?? 0, isExitFree: door.isExitFree, ...spot };
	});
}

type Share = (start: number, end: number) => number;
type Spot = Pick<DoorOnWall, 'x' | 'y' | 'facing'>;

/** The outer wall a door stands on, and whether it is walked inward; none for a door inside the building. */
function outerWallOf(door: PlanDoor, outerWalls: ReadonlyMap<string, OuterWall>) {
	const [ofTo, ofFrom] = [outerWalls.get(door.to), outerWalls.get(door.from)];
	if (ofTo?.around === door.from) return { room: door.to, side: ofTo.side, isInward: true };
	if (ofFrom?.around === door.to) return { room: door.from, side: ofFrom.side, isInward: false };
	return undefined;
}

function onOuterWall(
	{ side, isInward }: { side: OuterWall['side']; isInward: boolean },
	rect: Rect,
	share: Share
): Spot {
	const [right, bottom] = [rect.x + rect.width, rect.y + rect.height];
	const facing = isInward ? inward[side] : turned[inward[side]];
	if (side === 'left' || side === 'right')
		return { x: side === 'left' ? rect.x : right, y: share(rect.y, bottom), facing };
	return { x: share(rect.x, right), y: side === 'top' ? rect.y : bottom, facing };
}

function onCommonWall(from: Rect, to: Rect, share: Share): Spot {
	if (from.x !== to.x) {
		const isRight = to.x > from.x;
		const y = share(Math.max(from.y, to.y), Math.min(from.y + from.height, to.y + to.height));
		return { x: isRight ? to.x : from.x, y, facing: isRight ? 'right' : 'left' };
	}
	const isDown = to.y > from.y;
	return { x: share(from.x, from.x + from.width), y: isDown ? to.y : from.y, facing: isDown ? 'down' : 'up' };
}
