import type { LocalDate } from '../calendar/local-date';
import type { ResponseRule } from './define-pack';
import { latestDate } from './period';
import { type WorkingDayTest, firstWorkingDayAtOrAfter } from './working-days';

/** By when a person's request is answered. `endsOn` is where the period itself ends, `dueOn` the working day it moves to. */
export interface ResponseDeadline {
	readonly endsOn: LocalDate;
	readonly dueOn: LocalDate;
	/** After an extension, of which the person is told by `dueOn`; null where the law knows none. */
	readonly extended: { readonly endsOn: LocalDate; readonly dueOn: LocalDate } | null;
}

/**
 * By when a request received on a date is answered: so many months later, the day of receipt not counted, hence on the
 * same date or the last day of the month; then forward to the next working day. An extension counts from receipt too.
 * @source Regulation (EEC, Euratom) 1182/71, article 3(1), (2)(c) and (4); UK: Dodds v Walker [1981] 1 WLR 1027, ICO
 * @example responseDeadline(eu.response, '2027-01-31', weekdays).dueOn // '2027-03-01', since 28 February is a Sunday
 */
export function responseDeadline(
	rule: ResponseRule,
	receivedOn: LocalDate,
	isWorkingDay: WorkingDayTest
): ResponseDeadline {
	const after = (months: number) => {
		const endsOn = latestDate(receivedOn, { unit: 'months', count: months });
		return { endsOn, dueOn: firstWorkingDayAtOrAfter(endsOn, isWorkingDay) };
	};
	return { ...after(rule.months), extended: rule.extendedMonths === null ? null : after(rule.extendedMonths) };
}
