import { Meetings, type Meeting } from '../access/meetings';
import type { AccessClass, AccessModel } from '../access/model';
import { byCodeUnits } from '../kernel/compare';
import { isSameList, remembered } from '../kernel/remembered';
import { counted, nameOf } from '../document/names';
import { type Case, defineCheck } from './define-check';

export default defineCheck({
	code: 'grant-overlap',
	severity: 'note',
	title: 'Same door given twice',
	why: 'Taking one of the two away would take nothing from these people at the times that both give; that may surprise whoever tries it.',
	mend: 'Nothing need be done; to have one reason for each door, narrow or remove one of the two.',
	source: 'ONVIF Access Rules Service Specification: several policies for one access point are a union',
	mendAt: ({ assignments }) => `profiles?assignment=${encodeURIComponent(String(assignments?.[0]))}`,
	find: ({ access, kept }) =>
		kept.renew<Kept>('grant-overlap', (before) => findPairs(access, before)).pairs.flatMap(({ cases }) => cases),
	tellsFrom: ({ doors }) => [doors],
	message: ({ subject, count = 0 }, rollout) => {
		const ids = subject['assignments'] as readonly string[];
		const by = ids.length === 1 ? `two entries of assignment ${ids[0]}` : `assignments ${ids.join(' and ')}`;
		return `${nameOf(rollout.doors, subject['door'])} is given to ${counted(count, 'person', 'people')} at the same time by ${by}.`;
	}
});

/** Two assignments (or twice the same), with the cases of the doors that both give. */
interface Pair {
	readonly meetings: readonly Meeting[];
	/** The classes that both match, employed in the horizon. */
	readonly matched: readonly AccessClass[];
	readonly cases: readonly Case[];
}

interface Kept {
	readonly access: AccessModel;
	readonly matchedBy: MatchedBy;
	readonly meetings: Meetings;
	readonly pairs: readonly Pair[];
	/** By the ids of both, in the order of the document. */
	readonly pairByIds: ReadonlyMap<string, ReadonlyMap<string, Pair>>;
}

/** Classes by the places of two assignments, the first times how many there are plus the second. */
type MatchedBy = ReadonlyMap<number, readonly AccessClass[]>;

function findPairs(access: AccessModel, before: Kept | undefined): Kept {
	const isSame = before?.access.building === access.building && before.access.cells === access.cells;
	const meetings = new Meetings(access.cells, isSame ? before.meetings : undefined);
	const { assignments } = access.rollout;
	const count = assignments.length;
	const arePeopleSame = isSame && before.access.classes === access.classes;
	const matchedBy = arePeopleSame ? before.matchedBy : matchedByPair(access);
	const ids = assignments.map(({ id }) => id);
	const pairs: Pair[] = [];
	const pairByIds = new Map<string, Map<string, Pair>>();
	for (const [key, matched] of matchedBy) {
		const [a, b] = [Math.floor(key / count), key % count];
		const met = meetings.of(access.contents.assignment(a), access.contents.assignment(b), a === b);
		if (met.length === 0) continue;
		const [one, other] = [ids[a] as string, ids[b] as string];
		const known = isSame ? before.pairByIds.get(one)?.get(other) : undefined;
		const pair =
			known?.meetings === met && isSameList(known.matched, matched)
				? known
				: { meetings: met, matched, cases: casesOf(access, meetings, met, [one, other], matched) };
		pairs.push(pair);
		remembered(pairByIds, one, () => new Map<string, Pair>()).set(other, pair);
	}
	return { access, matchedBy, meetings, pairs, pairByIds };
}

/** Who is matched by two assignments, for each pair that matches anybody; also an assignment with itself. */
function matchedByPair(access: AccessModel): MatchedBy {
	const count = access.rollout.assignments.length;
	const byPair = new Map<number, AccessClass[]>();
	for (const one of access.classes) {
		if (one.firstDay > access.until || one.lastDay < access.from) continue;
		const { assignments } = one;
		for (let place = 0; place < assignments.length; place++) {
			const first = (assignments[place] as number) * count;
			for (let at = place; at < assignments.length; at++) {
				const key = first + (assignments[at] as number);
				const ofPair = byPair.get(key);
				if (ofPair) ofPair.push(one);
				else byPair.set(key, [one]);
			}
		}
	}
	return byPair;
}

function casesOf(
	access: AccessModel,
	meetings: Meetings,
	met: readonly Meeting[],
	of: readonly [string, string],
	matched: readonly AccessClass[]
): Case[] {
	const ids = [...new Set(of)].sort(byCodeUnits);
	return met.flatMap((meeting) => {
		let people = 0;
		for (const one of matched) {
			const [from, until] = [Math.max(access.from, one.firstDay), Math.min(access.until, one.lastDay)];
			if (meetings.isOn(meeting, from, until)) people += one.people.length;
		}
		if (people === 0) return [];
		return meeting.doors.map((door) => ({
			subject: { door: access.building.doors[door]?.id as string, assignments: ids },
			count: people
		}));
	});
}
