import { clip } from '../calendar/spans';
import { listed, nameOf, personName } from '../document/names';
import type { AccessProfile, Person } from '../document/schema';
import { type Candidate, type EditCall, type MendInput, defineMend } from './define-mend';
import { setField } from './support/edit-calls';
import { joined } from './support/join-assignment';
import { ownAccess } from './support/own-access';
import { type Situation, neededOf, situationOf } from './support/situation';
import { groupOf, widened } from './support/widen';

export default defineMend({
	code: 'no-route',
	asks: ['person', 'door'],
	propose(input) {
		const { rollout, subject } = input;
		const person = rollout.people.find(({ id }) => id === subject['person']);
		const door = subject['door'];
		const situation = person && door !== undefined ? situationAtDoor(input, person, door) : null;
		if (!situation || door === undefined) return { candidates: [], needed: [] };
		const others = situation.one.people
			.filter(({ id }) => id !== situation.person.id)
			.map((other) => ({ ...situation, person: other }));
		const from = rollout.doors.find(({ id }) => id === door)?.from;
		const { unreachable, byDoor } = situation.needs;
		const { model, person: who, one, areas, wanted } = situation;
		const otherWay = situationOf(model, who, one, areas, wanted, [], new Set(byDoor.keys()));
		return {
			candidates: [
				...widened(situation),
				...widened(otherWay),
				...joined(situation),
				...ownAccess(situation, others),
				...withoutDoor(input, situation, door)
			],
			needed: [situation, ...others].flatMap(neededOf),
			...(unreachable.length > 0
				? { whyNone: `No chain of doors leads to ${nameOf(rollout.areas, from)}: first the building needs a way in.` }
				: {})
		};
	}
});

/** Somebody who must reach the area before a door whenever they may open it. */
function situationAtDoor({ access }: MendInput, person: Person, door: string): Situation | null {
	const one = access.findClass(person.id);
	const place = access.building.doorPlaceById.get(door);
	const placed = place === undefined ? undefined : access.building.doors[place];
	if (!one || place === undefined || !placed) return null;
	const { from, to } = access.range;
	return situationOf(access, person, one, [placed.from], clip(access.doorSpansOf(one, place), from, to));
}

/** Takes the door, which is of no use, out of what the person is given: from the groups, or from the profiles only. */
function withoutDoor({ rollout }: MendInput, { person, one }: Situation, door: string): Candidate[] {
	const profiles = new Set(one.assignments.map((place) => rollout.assignments[place]?.accessProfile));
	const holding = new Set(rollout.doorGroups.filter(({ doors }) => doors.includes(door)).map(({ id }) => id));
	const giving = rollout.accessProfiles.filter(
		({ id, entries }) => profiles.has(id) && entries.some(({ doorGroup }) => holding.has(doorGroup))
	);
	const groups = rollout.doorGroups.filter(
		({ id }) => holding.has(id) && giving.some(({ entries }) => entries.some(({ doorGroup }) => doorGroup === id))
	);
	const doorName = nameOf(rollout.doors, door);
	const note = `${personName(rollout, person.id)} can make no use of it today.`;
	return [
		{
			way: 'take-from-group',
			does: `Take ${doorName} out of door group ${listed(groups.map(({ id }) => nameOf(rollout.doorGroups, id)))}`,
			edits: groups.map(({ id, doors }) =>
				setField(
					'doorGroups',
					id,
					['doors'],
					doors.filter((one) => one !== door)
				)
			),
			notes: [note]
		},
		{
			way: 'take-from-profile',
			does: `Take ${doorName} out of profile ${listed(giving.map(({ id }) => nameOf(rollout.accessProfiles, id)))} only`,
			edits: giving.flatMap((profile) => editsWithout(rollout, profile, door)),
			notes: [note]
		}
	];
}

function editsWithout(rollout: MendInput['rollout'], profile: AccessProfile, door: string): EditCall[] {
	const edits: EditCall[] = [];
	const entries = profile.entries.flatMap((entry) => {
		const doors = rollout.doorGroups.find(({ id }) => id === entry.doorGroup)?.doors ?? [];
		if (!doors.includes(door)) return [entry];
		const rest = doors.filter((one) => one !== door);
		if (rest.length === 0) return [];
		const group = groupOf(rollout, rest);
		if (!edits.some(({ params }) => JSON.stringify(params) === JSON.stringify(group.edits[0]?.params))) {
			edits.push(...group.edits);
		}
		return [{ ...entry, doorGroup: group.id }];
	});
	return [...edits, setField('accessProfiles', profile.id, ['entries'], entries)];
}
