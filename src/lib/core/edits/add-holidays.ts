import { z } from 'zod';
import { date, entry } from '../document/fields';
import { type EntryOf, entriesOf, withEntries, withValue } from '../document/lists';
import { holiday } from '../document/schema-when';
import { fault } from '../kernel/fault';
import { type Result, ok, refused } from '../kernel/result';
import type { RolloutDocument } from '../document/schema';
import { defineEdit } from './define-edit';

/** Adds several holidays at once, such as the statutory ones of a year. */
export default defineEdit({
	name: 'add-holidays',
	summary: 'Adds several holidays at once, in date order; refuses a date that is listed already.',
	params: entry({
		days: z
			.array(
				z.custom<EntryOf<'holidays'>>((value) => holiday.safeParse(value).success, { error: 'a holiday' }),
				{
					error: 'a list of holidays'
				}
			)
			.min(1, { error: 'at least one holiday' }),
		coveredUntil: date.optional().describe('The list is then complete up to this date')
	}),
	apply(document, { days, coveredUntil }): Result<RolloutDocument> {
		const present = entriesOf(document, 'holidays');
		const taken = new Map(present.map((day) => [day.date, day]));
		const faults = days.flatMap((day, index) => {
			const other = taken.get(day.date);
			taken.set(day.date, day);
			if (other === undefined) return [];
			const name = other.name ?? other.kind;
			return [fault(['days', index, 'date'], day.date, `a date that is not listed yet; ${name} is on this one`)];
		});
		if (faults.length > 0) return refused(faults);
		const added = withEntries(document, 'holidays', [
			...present,
			...days.toSorted((a, b) => (a.date < b.date ? -1 : 1))
		]);
		return ok(coveredUntil === undefined ? added : withValue(added, ['holidays', 'coveredUntil'], coveredUntil));
	},
	describe({ days, coveredUntil }) {
		const [first] = days;
		const what = days.length === 1 && first ? `Holiday ${first.date} added` : `${days.length} holidays added`;
		return coveredUntil === undefined ? what : `${what}; the list is complete up to ${coveredUntil}`;
	}
});
