import highsLoader from 'highs';
import { Board, type Lane, free } from '../../src/lib/core/enrollment/board';
import { fixedBookings } from '../../src/lib/core/enrollment/fixed';
import { instanceOf } from '../../src/lib/core/enrollment/instance';
import { EnrollmentModel } from '../../src/lib/core/enrollment/model';
import type { Rollout } from '../../src/lib/core/document/schema';

/** What a general-purpose integer-programming solver makes of a plan in the time that it is given. */
export interface IpPlan {
	readonly booked: number;
	readonly sessions: number;
	/** True when it proved that no plan books more, or as many in fewer sessions. */
	readonly isProven: boolean;
	readonly seconds: number;
}

/** Rows beyond which the model is not built: the solver would not come to an end. */
const mostVariables = 40_000;

/**
 * Plans by a model in which every start of every kind of people is a whole number: as many people as possible, then few sessions.
 * Sessions in which a booking stands cost nothing further. Undefined where the model is too large, or nothing was found in time.
 */
export async function planByIntegerProgram(rollout: Rollout, seconds: number): Promise<IpPlan | undefined> {
	const model = new EnrollmentModel(rollout);
	const board = new Board(instanceOf(model, fixedBookings(model), 'strict'));
	const text = modelText(board);
	if (text === undefined) return undefined;
	const highs = await highsLoader();
	const start = performance.now();
	const found = highs.solve(text, { time_limit: seconds, mip_rel_gap: 0, random_seed: 1 });
	const spent = (performance.now() - start) / 1000;
	const value = found.ObjectiveValue;
	if (!Number.isFinite(value) || Object.keys(found.Columns).length === 0) return undefined;
	let booked = 0;
	let sessions = board.sessionsUsed;
	for (const [name, column] of Object.entries(found.Columns)) {
		const amount = Math.round(Number(Reflect.get(column, 'Primal')));
		if (name.startsWith('x')) booked += amount;
		else sessions += amount;
	}
	return {
		booked: booked + board.instance.standing.length,
		sessions,
		isProven: found.Status === 'Optimal',
		seconds: spent
	};
}

function modelText(board: Board): string | undefined {
	const { instance, lanes } = board;
	const byCell = new Map<number, string[]>();
	const byMinute = new Map<string, string[]>();
	const byKind: string[][] = instance.kinds.map(() => []);
	const integers: string[] = [];
	for (const [laneIndex, lane] of lanes.entries()) {
		const lattice = instance.lattices[lane.station] as (typeof instance.lattices)[number];
		for (const [index, kind] of instance.kinds.entries()) {
			const window = kind.windows[lane.station];
			if (!window) continue;
			const next = board.nextOf(kind, lane.station);
			for (let at = 0; at < window.lo.length; at++) {
				for (let slot = window.lo[at] as number; slot <= (window.hi[at] as number); slot++) {
					const cell = lane.base + slot;
					if (!board.fits(kind, laneIndex, cell)) continue;
					const name = `x${index}_${cell}`;
					integers.push(name);
					if (integers.length > mostVariables) return undefined;
					byKind[index]?.push(name);
					for (let taken = cell; taken < lane.base + (next[slot] as number); taken++) push(byCell, taken, name);
					if (kind.limit < 0) continue;
					const walk = kind.walks[lane.station] as number;
					const from = (lattice.at[slot] as number) - walk;
					const to = (lattice.at[slot] as number) + kind.minutes * 60 + walk;
					for (let minute = from; minute < to; minute += 60) push(byMinute, `${kind.limit} ${minute}`, name);
				}
			}
		}
	}
	const used = new Set<string>();
	const rows: string[] = [];
	for (const [cell, names] of byCell) {
		if (board.cells[cell] !== free) continue;
		const unit = board.unitOfCell[cell] as number;
		const lane = lanes[board.unitLane[unit] as number] as Lane;
		const isInUse = (board.bookedIn[lane.sessions + (board.unitRun[unit] as number)] as number) > 0;
		if (!isInUse) used.add(`y${unit}`);
		rows.push(`${names.join(' + ')}${isInUse ? '' : ` - y${unit}`} <= ${isInUse ? 1 : 0}`);
	}
	const away = new Set<string>();
	for (const [key, names] of byMinute) {
		const [limit, minute] = key.split(' ').map(Number) as [number, number];
		const standing = instance.standing.filter(
			(one) => one.limit === limit && one.from - one.walk <= minute && minute < one.to + one.walk
		).length;
		away.add(`${names.join(' + ')} <= ${(instance.limits[limit] as { maxAway: number }).maxAway - standing}`);
	}
	rows.push(...away);
	byKind.forEach((names, index) => {
		if (names.length > 0) rows.push(`${names.join(' + ')} <= ${instance.kinds[index]?.members.length ?? 0}`);
	});
	const worth = used.size + 1;
	const goal = [...integers.map((name) => `${worth} ${name}`), ...[...used].map((name) => `- 1 ${name}`)];
	return [
		'Maximize',
		` obj: ${goal.join(' + ').replaceAll('+ -', '-')}`,
		'Subject To',
		...rows.map((row, index) => ` c${index}: ${row}`),
		'Bounds',
		...integers.map((name) => ` 0 <= ${name} <= 1`),
		'General',
		` ${integers.join(' ')}`,
		'Binary',
		` ${[...used].join(' ')}`,
		'End'
	].join('\n');
}

function push<K>(map: Map<K, string[]>, key: K, name: string): void {
	const list = map.get(key);
	if (list) list.push(name);
	else map.set(key, [name]);
}
