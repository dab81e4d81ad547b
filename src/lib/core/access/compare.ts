import { byCodeUnits } from '../kernel/compare';
import { type SpanSet, clip, difference, lengthOf, noSpans } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import type { Rollout } from '../document/schema';
import { AccessModel } from './model';

/** What changes for a person at a door: minutes gained and lost, and the first spans of each as RFC 3339 text. */
export interface AccessChange {
	readonly person: string;
	readonly door: string;
	readonly gained: number;
	readonly lost: number;
	readonly examples: readonly AccessChangeExample[];
}

export interface AccessChangeExample {
	readonly change: 'gained' | 'lost';
	readonly door: string;
	readonly from: string;
	readonly to: string;
}

const mostExamples = 3;

/**
 * Who gains and who loses which door between two rollouts, over the second one's horizon. A person or a door that one of
 * them lacks may open, or be opened by, nobody there. Only pairs that change; sorted by person, then door.
 */
export function compareAccess(before: Rollout, after: Rollout): AccessChange[] {
	const range = after.horizon;
	const models = [new AccessModel(before, range), new AccessModel(after, range)] as const;
	const spansOf = (model: AccessModel, person: string): ReadonlyMap<string, SpanSet> => {
		const one = model.findClass(person);
		return new Map(
			(one ? model.doorSetsOf(one) : []).flatMap((set) =>
				set.doors.map((door) => [model.building.doors[door]?.id as string, set.spans] as const)
			)
		);
	};
	const people = [...new Set([...before.people, ...after.people].map(({ id }) => id))].sort(byCodeUnits);
	return people.flatMap((person) => {
		const [old, now] = [spansOf(models[0], person), spansOf(models[1], person)];
		const doors = [...new Set([...old.keys(), ...now.keys()])].sort(byCodeUnits);
		return doors.flatMap((door) =>
			changeOf(models[1], person, door, old.get(door) ?? noSpans, now.get(door) ?? noSpans)
		);
	});
}

function changeOf(model: AccessModel, person: string, door: string, old: SpanSet, now: SpanSet): AccessChange[] {
	const { from, to } = model.range;
	const gained = clip(difference(now, old), from, to);
	const lost = clip(difference(old, now), from, to);
	if (gained.length === 0 && lost.length === 0) return [];
	const examplesOf = (change: 'gained' | 'lost', spans: SpanSet) =>
		spans.slice(0, mostExamples).map((span) => ({
			change,
			door,
			from: model.zone.textOf(span.from as Instant),
			to: model.zone.textOf(span.to as Instant)
		}));
	return [
		{
			person,
			door,
			gained: lengthOf(gained) / 60,
			lost: lengthOf(lost) / 60,
			examples: [...examplesOf('gained', gained), ...examplesOf('lost', lost)]
		}
	];
}
