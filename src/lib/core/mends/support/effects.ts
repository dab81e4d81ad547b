import type { AccessClass, AccessModel } from '../../access/model';
import { type SpanSet, clip, difference, lengthOf, noSpans } from '../../calendar/spans';
import type { Instant } from '../../calendar/zone';
import { byCodeUnits } from '../../kernel/compare';
import { groupBy } from '../../kernel/group-by';
import { remembered } from '../../kernel/remembered';
import type { NeededAccess } from '../define-mend';

/** Doors that some people gain or lose in the same way. Minutes are those of each of them at each of the doors. */
export interface EffectRow {
	readonly people: readonly string[];
	readonly doors: readonly string[];
	readonly gained: number;
	readonly lost: number;
	/** True for the people of the finding. */
	readonly isSubject: boolean;
	/** The first spans gained and lost, as RFC 3339 text. */
	readonly examples: readonly {
		readonly change: 'gained' | 'lost';
		readonly from: string;
		readonly to: string;
	}[];
}

/** Minutes summed over people and doors, and how many of either there are. */
export interface EffectSum {
	readonly people: number;
	readonly doors: number;
	readonly gained: number;
	readonly lost: number;
}

/** Who gains and who loses what by a change, over the horizon. */
export interface Effects {
	readonly subject: EffectSum;
	readonly others: EffectSum;
	/** Minutes opened to anybody, summed over people and doors, that the finding does not ask for. */
	readonly beyondNeed: number;
	readonly rows: readonly EffectRow[];
}

/** People who had one class before a change and have one after it, and so gain and lose the same in the horizon. */
export interface ClassPair {
	readonly people: readonly string[];
	readonly changes: readonly DoorChange[];
}

interface DoorChange {
	readonly door: string;
	readonly gained: SpanSet;
	readonly lost: SpanSet;
}

const mostExamples = 2;

/** People by what changes for them, those for whom nothing does left out. */
export function changedPairs(before: AccessModel, after: AccessModel, people: Iterable<string>): ClassPair[] {
	const pairs = groupBy(people, (person) =>
		JSON.stringify([before.findClass(person)?.key ?? null, after.findClass(person)?.key ?? null])
	);
	const { from, to } = before.range;
	return [...pairs.values()].flatMap((same) => {
		const [old, now] = [spansOf(before, same[0] as string), spansOf(after, same[0] as string)];
		const doors = [...new Set([...old.keys(), ...now.keys()])].sort(byCodeUnits);
		const known = new Map<SpanSet, Map<SpanSet, Omit<DoorChange, 'door'>>>();
		const changes = doors.flatMap((door): DoorChange[] => {
			const [was, is] = [old.get(door) ?? noSpans, now.get(door) ?? noSpans];
			const change = remembered(
				remembered(known, was, () => new Map<SpanSet, Omit<DoorChange, 'door'>>()),
				is,
				() => ({ gained: clip(difference(is, was), from, to), lost: clip(difference(was, is), from, to) })
			);
			return change.gained.length + change.lost.length === 0 ? [] : [{ door, ...change }];
		});
		return changes.length === 0 ? [] : [{ people: same, changes }];
	});
}

function spansOf(model: AccessModel, person: string): ReadonlyMap<string, SpanSet> {
	const one: AccessClass | undefined = model.findClass(person);
	return new Map(
		(one ? model.doorSetsOf(one) : []).flatMap(({ doors, spans }) =>
			doors.map((door) => [model.building.doors[door]?.id as string, spans] as const)
		)
	);
}

/** What changes, summed and by rows: the people of the finding first, then where most is gained or lost. */
export function effectsOf(
	model: AccessModel,
	pairs: readonly ClassPair[],
	subject: ReadonlySet<string>,
	needed: readonly NeededAccess[]
): Effects {
	const rows = pairs.flatMap(({ people, changes }) =>
		[true, false].flatMap((isSubject) => {
			const concerned = people.filter((person) => subject.has(person) === isSubject);
			return concerned.length === 0 ? [] : rowsOf(model, concerned, changes, isSubject);
		})
	);
	const weight = ({ people, doors, gained, lost }: EffectRow) => people.length * doors.length * (gained + lost);
	rows.sort((a, b) => Number(b.isSubject) - Number(a.isSubject) || weight(b) - weight(a));
	const sum = (isSubject: boolean) => sumOf(rows.filter((row) => row.isSubject === isSubject));
	const [own, others] = [sum(true), sum(false)];
	return {
		subject: own,
		others,
		beyondNeed: own.gained + others.gained - minutesNeeded(pairs, needed),
		rows
	};
}

function rowsOf(
	{ zone }: AccessModel,
	people: readonly string[],
	changes: readonly DoorChange[],
	isSubject: boolean
): EffectRow[] {
	const alike = groupBy(changes, ({ gained, lost }) => JSON.stringify([gained, lost]));
	return [...alike.values()].map((same) => {
		const { gained, lost } = same[0] as DoorChange;
		const examplesOf = (change: 'gained' | 'lost', spans: SpanSet) =>
			spans.slice(0, mostExamples).map(({ from, to }) => ({
				change,
				from: zone.textOf(from as Instant),
				to: zone.textOf(to as Instant)
			}));
		return {
			people,
			doors: same.map(({ door }) => door),
			gained: lengthOf(gained) / 60,
			lost: lengthOf(lost) / 60,
			isSubject,
			examples: [...examplesOf('gained', gained), ...examplesOf('lost', lost)]
		};
	});
}

function sumOf(rows: readonly EffectRow[]): EffectSum {
	const total = (field: 'gained' | 'lost') =>
		rows.reduce((sum, row) => sum + row[field] * row.people.length * row.doors.length, 0);
	return {
		people: new Set(rows.flatMap(({ people }) => people)).size,
		doors: new Set(rows.flatMap(({ doors }) => doors)).size,
		gained: total('gained'),
		lost: total('lost')
	};
}

/** How much of what is gained the finding asked for. */
function minutesNeeded(pairs: readonly ClassPair[], needed: readonly NeededAccess[]): number {
	const byPerson = groupBy(needed, ({ person }) => person);
	let seconds = 0;
	for (const { people, changes } of pairs) {
		for (const person of people) {
			for (const { door, spans } of byPerson.get(person) ?? []) {
				const gained = changes.find((change) => change.door === door)?.gained ?? noSpans;
				seconds += lengthOf(gained) - lengthOf(difference(gained, spans));
			}
		}
	}
	return seconds / 60;
}
