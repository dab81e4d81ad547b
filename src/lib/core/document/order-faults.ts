import { type LocalDate, isLocalDate, plusMonths } from '../calendar/local-date';
import { type Fault, fault } from '../kernel/fault';
import { isSameList } from './lists';
import { eachPlace, fieldOf, placesAt } from './walk';

/** Lists whose entries have two dates, the later of which must not lie before the earlier. */
const limited: readonly (readonly [pattern: string, from: string, until: string])[] = [
	['horizon', 'from', 'until'],
	['schedules[]', 'from', 'until'],
	['people[]', 'startsOn', 'leavesOn'],
	['absences[]', 'from', 'until'],
	['assignments[]', 'from', 'until'],
	['privacy.holds[]', 'from', 'until'],
	['privacy.requests[]', 'receivedOn', 'identityCheckedOn'],
	['privacy.requests[]', 'receivedOn', 'extendedOn'],
	['privacy.requests[]', 'receivedOn', 'answeredOn']
];

/**
 * Faults between two values: an end before its begin, a horizon over 10 years, a shift outside its cycle. `before`: a document
 * without faults; lists that are the same objects there are not looked through again.
 */
export function findOrderFaults(root: unknown, before?: unknown): Fault[] {
	const faults: Fault[] = [];
	for (const [pattern, fromKey, untilKey] of limited) {
		if (isSameList(root, before, pattern.replace('[]', ''))) continue;
		eachPlace(root, pattern, (value, stepsTo) => {
			const from = fieldOf(value, fromKey);
			const until = fieldOf(value, untilKey);
			if (!isDate(from) || !isDate(until) || from <= until) return;
			faults.push(fault([...stepsTo(), untilKey], until, `a date on or after ${fromKey}, ${from}`));
		});
	}
	return [...faults, ...longHorizon(root), ...shiftsOutside(root)];
}

function longHorizon(root: unknown): Fault[] {
	const horizon = fieldOf(root, 'horizon');
	const from = fieldOf(horizon, 'from');
	const until = fieldOf(horizon, 'until');
	if (!isDate(from) || !isDate(until) || until <= plusMonths(from, 120)) return [];
	return [fault(['horizon', 'until'], until, `a date at most 10 years after ${from}`)];
}

function shiftsOutside(root: unknown): Fault[] {
	return placesAt(root, 'shiftPatterns[]').flatMap(({ steps, value }) => {
		const cycleDays = fieldOf(value, 'cycleDays');
		if (typeof cycleDays !== 'number' || !(cycleDays >= 1)) return [];
		return placesAt(value, 'shifts[]').flatMap((shift) => {
			const day = fieldOf(shift.value, 'day');
			if (typeof day !== 'number' || day < cycleDays) return [];
			return [fault([...steps, ...shift.steps, 'day'], day, `a day of the cycle, 0 to ${cycleDays - 1}`)];
		});
	});
}

function isDate(value: unknown): value is LocalDate {
	return typeof value === 'string' && isLocalDate(value);
}
