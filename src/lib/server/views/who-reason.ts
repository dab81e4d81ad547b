import type { AccessModel } from '$lib/core/access/model';
import { dayRuleOf } from '$lib/core/access/schedule-days';
import { clip } from '$lib/core/calendar/spans';
import { dateOf, plusDays } from '$lib/core/calendar/local-date';
import { nameOf } from '$lib/core/document/names';
import { datesWords } from '$lib/components/access/words';
import type { Chain, Reason } from '$lib/components/access/grid';
import { whoWords } from './profiles';
import { spansWords } from './week-of';
import { type RowOfPeople, cellSpans, cellWords, classesOf } from './who-grid';

/**
 * Why people of a row may open the doors of a column in the model's week, or not: every assignment that matches one of
 * them, followed to the doors or to where it breaks off.
 */
export function reasonOf(
	model: AccessModel,
	row: RowOfPeople,
	column: { readonly name: string; readonly places: readonly number[] }
): Reason {
	const { rollout } = model;
	const classes = classesOf(model, row.people);
	const employed = classes.flatMap((one) => one.people.filter((person) => row.people.includes(person)));
	const { all, some } = cellSpans(model, classes, column.places);
	const countByAssignment = new Map<number, number>();
	for (const person of employed) {
		for (const place of model.findClass(person.id)?.assignments ?? []) {
			countByAssignment.set(place, (countByAssignment.get(place) ?? 0) + 1);
		}
	}
	const chains = [...countByAssignment]
		.sort(([a], [b]) => a - b)
		.flatMap(([place, people]) => chainsOf(model, place, people, column.places));
	const without = employed.filter((person) => {
		const one = model.findClass(person.id);
		return (
			one &&
			cellSpans(model, [one], column.places).all.length + cellSpans(model, [one], column.places).some.length === 0
		);
	});
	return {
		row: row.name,
		column: column.name,
		people: employed.length,
		without: { count: without.length, names: without.slice(0, 4).map(({ id, name }) => name ?? id) },
		words: cellWords(model, all, some),
		doors: column.places.map((place) => nameOf(rollout.doors, rollout.doors[place]?.id)),
		open: chains.filter(({ state }) => state === 'open'),
		broken: chains.filter(({ state }) => state !== 'open')
	};
}

function chainsOf(model: AccessModel, place: number, people: number, doors: readonly number[]): Chain[] {
	const { rollout } = model;
	const assignment = rollout.assignments[place];
	if (!assignment) return [];
	const profile = rollout.accessProfiles.find(({ id }) => id === assignment.accessProfile);
	const common = {
		assignment: assignment.id,
		who: whoWords(assignment.who, rollout),
		people,
		dates: datesWords(assignment.from, assignment.until),
		profile: assignment.accessProfile,
		profileName: nameOf(rollout.accessProfiles, assignment.accessProfile)
	};
	const ids = new Set(doors.map((door) => model.building.doors[door]?.id));
	const chains = (profile?.entries ?? []).flatMap(({ doorGroup, schedule }, entry): Chain[] => {
		const group = rollout.doorGroups.find(({ id }) => id === doorGroup);
		const granted = group?.doors.filter((door) => ids.has(door)) ?? [];
		if (!group || granted.length === 0) return [];
		const { from, to } = model.range;
		const spans = clip(model.spansOfGrant({ assignment: place, entry, schedule }), from, to);
		const isInForce =
			(assignment.from === null || assignment.from <= dateOf(model.until)) &&
			(assignment.until === null || assignment.until >= dateOf(model.from));
		return [
			{
				...common,
				entry: {
					groupName: group.name ?? group.id,
					doors: [...new Set(granted)].map((door) => nameOf(rollout.doors, door)),
					schedule,
					scheduleName: nameOf(rollout.schedules, schedule)
				},
				state: spans.length > 0 ? 'open' : isInForce ? 'closed' : 'not-in-force',
				hours: spansWords(spans, model),
				holidays: holidayWords(model, schedule)
			}
		];
	});
	return chains.length > 0 ? chains : [{ ...common, entry: null, state: 'not-granted', hours: '', holidays: [] }];
}

/** What a schedule does on each holiday of the model's week. */
function holidayWords(model: AccessModel, scheduleId: string): string[] {
	const schedule = model.schedules.get(scheduleId);
	const words: string[] = [];
	for (let day = model.from; schedule && day <= model.until; day = plusDays(day, 1)) {
		const holiday = model.holidays.get(day);
		if (!holiday) continue;
		const name = `${dateOf(day)}, ${holiday.name ?? holiday.kind} (${holiday.kind})`;
		const rule = dayRuleOf(schedule, day, model.holidays);
		const does = {
			week: 'as on an ordinary day',
			'holiday-closed': 'closed',
			'holiday-undecided': 'not decided, so closed',
			'holiday-list': `open ${rule.stretches.map(({ text }) => text.replace('-', '–')).join(', ') || 'never'}`,
			'not-valid': 'the schedule is not valid then'
		}[rule.rule];
		words.push(`${name}: ${does}`);
	}
	return words;
}
