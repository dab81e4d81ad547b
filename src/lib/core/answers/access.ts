import { z } from 'zod';
import { AccessModel } from '../access/model';
import type { LocalDate } from '../calendar/local-date';
import { clip } from '../calendar/spans';
import type { Instant } from '../calendar/zone';
import { nameOf } from '../document/names';
import { byCodeUnits } from '../kernel/compare';
import { ok, refused } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';
import { dateParam, doorId, personId, unknownId, wrongRange } from './support/params';

/** A maximal span in which a person may open a door; instants as RFC 3339 text. */
export interface DoorSpan {
	readonly door: string;
	readonly from: string;
	readonly to: string;
}

export interface AccessAnswer {
	readonly spans: readonly DoorSpan[];
}

interface Params {
	readonly person: string;
	readonly door?: string | undefined;
	readonly from: LocalDate;
	readonly until: LocalDate;
}

export default defineAnswer<Params, AccessAnswer>({
	name: 'access',
	summary: 'Which doors a person may open, and exactly when, over a range of dates.',
	params: z.strictObject({
		person: personId,
		door: doorId.optional(),
		from: dateParam.describe('First date, inclusive'),
		until: dateParam.describe('Last date, inclusive')
	}),
	run(rollout, { person, door, from, until }) {
		const faults = [
			...unknownId('person', person, 'a person', rollout.people),
			...(door === undefined ? [] : unknownId('door', door, 'a door', rollout.doors)),
			...wrongRange(from, until)
		];
		if (faults.length > 0) return Promise.resolve(refused(faults));
		const model = new AccessModel(
			rollout,
			{ from, until },
			rollout.people.filter(({ id }) => id === person)
		);
		const one = model.findClass(person);
		const sets = one ? model.doorSetsOf(one) : [];
		const spans = sets
			.flatMap((set) => {
				const inRange = clip(set.spans, model.range.from, model.range.to);
				return set.doors
					.map((place) => model.building.doors[place]?.id as string)
					.filter((id) => door === undefined || id === door)
					.flatMap((id) => inRange.map((span) => ({ door: id, ...span })));
			})
			.sort((a, b) => byCodeUnits(a.door, b.door) || a.from - b.from)
			.map((span) => ({
				door: span.door,
				from: model.zone.textOf(span.from as Instant),
				to: model.zone.textOf(span.to as Instant)
			}));
		return Promise.resolve(ok({ spans }));
	},
	isBad: () => false,
	text({ spans }, rollout) {
		if (spans.length === 0) return 'May open nothing in this range.';
		return textTable(
			['door', 'name', 'from', 'to'].map((heading) => ({ heading })),
			spans.map(({ door, from, to }) => [door, nameOf(rollout.doors, door), from, to])
		);
	}
});
