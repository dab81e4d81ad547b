import { dateOf } from '../../calendar/local-date';
import { type SpanSet, union } from '../../calendar/spans';
import { listed, nameOf, personName } from '../../document/names';
import type { Rollout, Schedule } from '../../document/schema';
import type { Candidate, EditCall } from '../define-mend';
import { type ScheduleChange, changeCovering } from './cover-schedule';
import { dayPieces } from './day-pieces';
import { addEntry, freshId } from './edit-calls';
import type { Situation } from './situation';
import { doorsByTimes, groupOf } from './widen';
import { changeWords } from './words';

/** Needs on this many dates or fewer get an assignment that ends with the last of them. */
const fewDates = 14;

/**
 * An access profile of its own, which gives only the missing doors at only the missing times, assigned to the person, or to
 * several in the same position. Nobody else gains anything.
 */
export function ownAccess(situation: Situation, others: readonly Situation[] = []): Candidate[] {
	if (situation.needs.byDoor.size === 0) return [];
	const alone = ownAccessFor([situation]);
	return others.length === 0 ? [alone] : [ownAccessFor([situation, ...others]), alone];
}

function ownAccessFor(situations: readonly Situation[]): Candidate {
	const [{ model, rollout }] = situations as [Situation];
	const needs = new Map<number, SpanSet>();
	for (const { needs: own } of situations) {
		for (const [door, spans] of own.byDoor) needs.set(door, union(needs.get(door) ?? [], spans));
	}
	const people = situations.map(({ person }) => person.id);
	const who = listed(people.map((id) => personName(rollout, id)));
	const wish = `for-${people.length === 1 ? (people[0] ?? '') : (situations[0]?.person.shiftPattern ?? 'several')}`;
	const edits: EditCall[] = [];
	const says: string[] = [];
	const entries = doorsByTimes(needs).map(([places, spans]) => {
		const doors = places.map((place) => model.building.doors[place]?.id as string);
		const group = groupOf(withAdded(rollout, 'doorGroups', edits), doors);
		edits.push(...group.edits);
		const change = openDaysOnly(changeCovering(closedAlways, spans, model, 'exact'));
		const id = freshId(withAdded(rollout, 'schedules', edits).schedules, wish);
		edits.push(addEntry('schedules', newSchedule(rollout, id, `Only for ${who}`, change)));
		says.push(`${listed(doors.map((door) => nameOf(rollout.doors, door)))} ${changeWords(change)}`);
		return { doorGroup: group.id, schedule: id };
	});
	const profile = freshId(rollout.accessProfiles, wish);
	edits.push(addEntry('accessProfiles', { id: profile, name: `Only for ${who}`, entries }));
	const days = dayPieces(model, union(...needs.values())).map(({ day }) => day);
	const [first, last] = [days[0] ?? model.from, days.at(-1) ?? model.until];
	edits.push(
		addEntry('assignments', {
			id: freshId(rollout.assignments, wish),
			who: { people },
			accessProfile: profile,
			from: dateOf(first),
			...(new Set(days).size <= fewDates ? { until: dateOf(last) } : {})
		})
	);
	const dates = new Set(days).size <= fewDates ? `${dateOf(first)} to ${dateOf(last)}` : `from ${dateOf(first)} on`;
	return {
		way: people.length === 1 ? 'own-access' : 'own-access-for-all',
		does: `Give ${who} a profile of their own, ${first === last ? `on ${dateOf(first)}` : dates}: ${says.join('; ')}`,
		edits
	};
}

const closedAlways: Schedule = {
	id: '',
	name: null,
	from: null,
	until: null,
	week: { mon: [], tue: [], wed: [], thu: [], fri: [], sat: [], sun: [] },
	holidays: {}
};

/** Days that stay closed need no word. */
function openDaysOnly(change: ScheduleChange): ScheduleChange {
	return { ...change, week: Object.fromEntries(Object.entries(change.week).filter(([, list]) => list.length > 0)) };
}

function newSchedule(rollout: Rollout, id: string, name: string, { week, holidays }: ScheduleChange) {
	// Every kind is decided: one that is left out would be a finding of its own.
	const kinds = new Set(rollout.holidays.days.map(({ kind }) => kind));
	const decided = [...kinds].map((kind) => [kind, holidays.get(kind) ?? 'closed'] as const);
	return { id, name, week, holidays: Object.fromEntries(decided) };
}

/** The rollout with the ids of entries that edits will add, so that none is taken twice. */
function withAdded<List extends 'doorGroups' | 'schedules'>(
	rollout: Rollout,
	list: List,
	edits: readonly EditCall[]
): Rollout {
	const added = edits
		.map(({ params }) => params as { readonly collection?: string; readonly entry?: Rollout[List][number] })
		.flatMap(({ collection, entry }) => (collection === list && entry ? [entry] : []));
	return { ...rollout, [list]: [...rollout[list], ...added] };
}
