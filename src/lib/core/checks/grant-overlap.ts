import { Meetings, type Meeting } from '../access/meetings';
import type { AccessModel } from '../access/model';
import { byCodeUnits } from '../kernel/compare';
import { remembered } from '../kernel/remembered';
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
	/** The people whom both match, by the dates on which they are employed. */
	readonly employed: EmployedOn;
	readonly cases: readonly Case[];
}

interface Kept {
	readonly access: AccessModel;
	readonly employedBy: ReadonlyMap<number, EmployedOn>;
	readonly meetings: Meetings;
	readonly pairs: readonly Pair[];
	/** By the ids of both, in the order of the document. */
	readonly pairByIds: ReadonlyMap<string, ReadonlyMap<string, Pair>>;
}

/** How many people are employed on which dates of the horizon. */
interface Employed {
	readonly from: number;
	readonly until: number;
	people: number;
}

/** By dates, which are numbered: the same number, the same dates, in every state with the same horizon. */
type EmployedOn = ReadonlyMap<number, Employed>;

function findPairs(access: AccessModel, before: Kept | undefined): Kept {
	const isSame = before?.access.building === access.building && before.access.cells === access.cells;
	const meetings = new Meetings(access.cells, isSame ? before.meetings : undefined);
	const { assignments } = access.rollout;
	const count = assignments.length;
	const arePeopleSame = isSame && before.access.classes === access.classes;
	const employedBy = arePeopleSame ? before.employedBy : employedByPair(access);
	const ids = assignments.map(({ id }) => id);
	const pairs: Pair[] = [];
	const pairByIds = new Map<string, Map<string, Pair>>();
	for (const [key, employed] of employedBy) {
		const [a, b] = [Math.floor(key / count), key % count];
		const met = meetings.of(access.contents.assignment(a), access.contents.assignment(b), a === b);
		if (met.length === 0) continue;
		const [one, other] = [ids[a] as string, ids[b] as string];
		const known = isSame ? before.pairByIds.get(one)?.get(other) : undefined;
		const pair =
			known?.meetings === met && isSameEmployed(known.employed, employed)
				? known
				: { meetings: met, employed, cases: casesOf(access, meetings, met, [one, other], employed) };
		pairs.push(pair);
		remembered(pairByIds, one, () => new Map<string, Pair>()).set(other, pair);
	}
	return { access, employedBy, meetings, pairs, pairByIds };
}

function isSameEmployed(a: EmployedOn, b: EmployedOn): boolean {
	if (a === b) return true;
	if (a.size !== b.size) return false;
	for (const [dates, { people }] of a) if (b.get(dates)?.people !== people) return false;
	return true;
}

/** Who is matched by two assignments, for each pair that matches anybody; also an assignment with itself. */
function employedByPair(access: AccessModel): ReadonlyMap<number, EmployedOn> {
	const count = access.rollout.assignments.length;
	const days = access.until - access.from + 1;
	const byPair = new Map<number, Map<number, Employed>>();
	for (const { assignments, firstDay, lastDay, people } of access.classes) {
		const [from, until] = [Math.max(access.from, firstDay), Math.min(access.until, lastDay)];
		if (from > until) continue;
		const dates = (from - access.from) * days + until - access.from;
		assignments.forEach((a, place) => {
			for (let at = place; at < assignments.length; at++) {
				const ofPair = remembered(byPair, a * count + (assignments[at] as number), () => new Map<number, Employed>());
				remembered(ofPair, dates, () => ({ from, until, people: 0 })).people += people.length;
			}
		});
	}
	return byPair;
}

function casesOf(
	access: AccessModel,
	meetings: Meetings,
	met: readonly Meeting[],
	of: readonly [string, string],
	employed: EmployedOn
): Case[] {
	const ids = [...new Set(of)].sort(byCodeUnits);
	return met.flatMap((meeting) => {
		let people = 0;
		for (const one of employed.values()) if (meetings.isOn(meeting, one.from, one.until)) people += one.people;
		if (people === 0) return [];
		return meeting.doors.map((door) => ({
			subject: { door: access.building.doors[door]?.id as string, assignments: ids },
			count: people
		}));
	});
}
