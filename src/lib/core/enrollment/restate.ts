import { type Leaver, awayMinutesAvailable, leaversOf } from './away-proof';
import type { ProofSpace } from './proof-space';
import { type Shortfall, piecesOf } from './shortfalls';

/**
 * True when a shortfall says the same, number by number, in another reading of the document: only then is it told, so that it
 * holds whichever way the document is read.
 */
export function holdsIn(space: ProofSpace, shortfall: Shortfall): boolean {
	const { instance } = space;
	const place = new Map(instance.people.map((person, index) => [person.id, index]));
	const kinds: number[] = [];
	for (const id of shortfall.people) {
		const index = place.get(id);
		if (index !== undefined) kinds.push(instance.kindOf[index] as number);
		else if (!instance.standing.some(({ booking }) => booking.person === id)) return false;
	}
	switch (shortfall.kind) {
		case 'no-common-time':
			return kinds.every((kind) => instance.kinds[kind]?.windows.every((window) => window === null));
		case 'station-time': {
			if (kinds.length < shortfall.people.length) return false;
			const needed = kinds.reduce((sum, kind) => sum + space.leastTaken(kind, true), 0);
			const own = JSON.stringify([shortfall.neededMinutes, shortfall.availableMinutes, shortfall.stretches]);
			return [false, true].some((isFine) => {
				const { minutes, stretches } = piecesOf(space, new Set(kinds), isFine);
				return JSON.stringify([needed, minutes, stretches]) === own;
			});
		}
		case 'away-limit': {
			const limit = instance.limits.findIndex(({ department }) => department === shortfall.department);
			const maxAway = instance.limits[limit]?.maxAway;
			if (maxAway === undefined) return false;
			const leavers: Leaver[] = (leaversOf(space, limit) ?? []).filter(({ kind, standing }) =>
				standing ? shortfall.people.includes(standing.booking.person) : kinds.includes(kind)
			);
			const minutesOf = (kind: number): number => leavers.find((leaver) => leaver.kind === kind)?.minutes ?? 0;
			const standing = leavers.filter((leaver) => leaver.standing).reduce((sum, leaver) => sum + leaver.minutes, 0);
			const needed = kinds.reduce((sum, kind) => sum + minutesOf(kind), standing);
			return (
				needed === shortfall.neededMinutes && awayMinutesAvailable(leavers, maxAway) === shortfall.availableMinutes
			);
		}
	}
}
