import { type SpanSet, difference, union } from '../../calendar/spans';
import { listed, nameOf } from '../../document/names';
import type { AccessProfile, DoorGroup, Rollout } from '../../document/schema';
import { remembered } from '../../kernel/remembered';
import type { Candidate, EditCall } from '../define-mend';
import { type HolidayStyle, type ScheduleChange, changeCovering } from './cover-schedule';
import { addEntry, freshId, scheduleEdits, setField } from './edit-calls';
import type { Situation } from './situation';
import { changeWords } from './words';

/** How a door that nobody in the situation is given yet gets into the profile. */
type DoorStyle = 'in-group' | 'own-entry';

const mostSchedules = 3;

/**
 * Lets the schedules on which somebody is given doors be open at the missing times, and puts doors that are not given at all
 * into the profile. One candidate for each way of treating holidays, of adding doors, and each schedule to begin with.
 */
export function widened(situation: Situation): Candidate[] {
	const { byDoor } = situation.needs;
	if (byDoor.size === 0) return [];
	const styles: readonly HolidayStyle[] = ['exact', 'as-usual'];
	const doorStyles: readonly DoorStyle[] = ['in-group', 'own-entry'];
	return schedulesByUse(situation)
		.slice(0, mostSchedules)
		.flatMap((schedule) =>
			styles.flatMap((style) => doorStyles.map((doorStyle) => widenedFrom(situation, schedule, style, doorStyle)))
		)
		.flatMap((candidate) => candidate ?? []);
}

/** The schedules of the person's profiles, those on which most of the missing doors are given first. */
function schedulesByUse({ model, one, rollout, needs }: Situation): string[] {
	const uses = new Map<string, number>();
	for (const place of one.assignments) {
		const profile = profileOf(rollout, place);
		for (const { schedule } of profile?.entries ?? []) uses.set(schedule, uses.get(schedule) ?? 0);
		for (const door of needs.byDoor.keys()) {
			for (const { schedule } of model.grantsOf(place, door)) uses.set(schedule, (uses.get(schedule) ?? 0) + 1);
		}
	}
	return [...uses].sort(([, a], [, b]) => b - a).map(([schedule]) => schedule);
}

function profileOf(rollout: Rollout, assignment: number): AccessProfile | undefined {
	const id = rollout.assignments[assignment]?.accessProfile;
	return rollout.accessProfiles.find((profile) => profile.id === id);
}

function widenedFrom(situation: Situation, first: string, style: HolidayStyle, doorStyle: DoorStyle): Candidate | null {
	const { model, one, rollout, needs } = situation;
	const spansBySchedule = new Map<string, SpanSet>();
	const ungiven: number[] = [];
	for (const [door, spans] of needs.byDoor) {
		const schedules = one.assignments.flatMap((place) => model.grantsOf(place, door)).map(({ schedule }) => schedule);
		const schedule = schedules.includes(first) ? first : schedules[0];
		if (schedule === undefined) ungiven.push(door);
		const used = schedule ?? first;
		spansBySchedule.set(used, union(spansBySchedule.get(used) ?? [], spans));
	}
	const changes = [...spansBySchedule].flatMap(([id, spans]) => {
		const schedule = rollout.schedules.find((entry) => entry.id === id);
		return schedule
			? [[id, changeCovering(schedule, difference(spans, model.openSpans(id)), model, style)] as const]
			: [];
	});
	const added = ungiven.length === 0 ? { edits: [], says: [] } : withDoors(situation, first, ungiven, doorStyle);
	if (!added) return null;
	const edits = [...added.edits, ...changes.flatMap(([id, change]) => scheduleEdits(id, change))];
	if (edits.length === 0) return null;
	return {
		way: ungiven.length === 0 ? 'widen-schedule' : 'add-door',
		does: [
			...added.says,
			...changes.filter(([, change]) => isChange(change)).map(([id, change]) => saysOf(rollout, id, change))
		].join('; '),
		edits
	};
}

function isChange({ week, holidays, from, until }: ScheduleChange): boolean {
	return Object.keys(week).length > 0 || holidays.size > 0 || from !== undefined || until !== undefined;
}

function saysOf(rollout: Rollout, id: string, change: ScheduleChange): string {
	return `Let schedule ${nameOf(rollout.schedules, id)} be ${changeWords(change)}`;
}

function withDoors(
	{ model, one, rollout }: Situation,
	schedule: string,
	places: readonly number[],
	style: DoorStyle
): { readonly edits: readonly EditCall[]; readonly says: readonly string[] } | null {
	const doors = places.map((place) => model.building.doors[place]?.id as string);
	const doorNames = listed(doors.map((id) => nameOf(rollout.doors, id)));
	const profiles = one.assignments.flatMap((place) => profileOf(rollout, place) ?? []);
	const profile = profiles.find(({ entries }) => entries.some((entry) => entry.schedule === schedule)) ?? profiles[0];
	if (!profile) return null;
	if (style === 'in-group') {
		const groups = profile.entries.filter((entry) => entry.schedule === schedule).map(({ doorGroup }) => doorGroup);
		const group = rollout.doorGroups.find(({ id }) => groups.includes(id));
		if (!group) return null;
		return {
			edits: [setField('doorGroups', group.id, ['doors'], [...new Set([...group.doors, ...doors])])],
			says: [`Put ${doorNames} into door group ${nameOf(rollout.doorGroups, group.id)}`]
		};
	}
	const { id, edits } = groupOf(rollout, doors);
	const entries = [...profile.entries, { doorGroup: id, schedule }];
	return {
		edits: [...edits, setField('accessProfiles', profile.id, ['entries'], entries)],
		says: [
			`Give ${doorNames} in profile ${nameOf(rollout.accessProfiles, profile.id)} on schedule ${nameOf(rollout.schedules, schedule)}`
		]
	};
}

/** A door group that holds exactly the doors: one that is there, else a new one. */
export function groupOf(
	rollout: Rollout,
	doors: readonly string[]
): { readonly id: string; readonly edits: readonly EditCall[] } {
	const wanted = [...new Set(doors)].sort().join('\n');
	const present = rollout.doorGroups.find((group: DoorGroup) => [...new Set(group.doors)].sort().join('\n') === wanted);
	if (present) return { id: present.id, edits: [] };
	const id = freshId(
		rollout.doorGroups,
		doors.length === 1 ? `only-${doors[0] ?? ''}` : `only-${doors[0] ?? ''}-and-others`
	);
	const name = `Only ${listed(doors.map((door) => nameOf(rollout.doors, door)))}`;
	return { id, edits: [addEntry('doorGroups', { id, name, doors: [...new Set(doors)] })] };
}

/** Schedules of needs that are alike, gathered: doors that are missing at the same times. */
export function doorsByTimes(needs: ReadonlyMap<number, SpanSet>): readonly (readonly [readonly number[], SpanSet])[] {
	const byTimes = new Map<string, [number[], SpanSet]>();
	for (const [door, spans] of needs) {
		const key = spans.map(({ from, to }) => `${from}-${to}`).join();
		remembered(byTimes, key, () => [[], spans] as [number[], SpanSet])[0].push(door);
	}
	return [...byTimes.values()];
}
