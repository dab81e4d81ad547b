import { expect, test } from 'vitest';
import type { LocalDate } from '../../calendar/local-date';
import type { LocalDateTime } from '../../calendar/local-date-time';
import { withoutOutage } from './outage';

const on = (date: string, at: string) => ({ date: date as LocalDate, at });
const cut = (open: ReturnType<typeof on>[], from: string, until: string) =>
	withoutOutage(open, from as LocalDateTime, until as LocalDateTime);

test('what lies before and after an outage stays open, other dates untouched', () => {
	const other = on('2027-02-02', '08:00-12:00');
	const open = [on('2027-02-01', '08:00-12:00'), other];
	const left = cut(open, '2027-02-01T09:00', '2027-02-01T10:15');
	expect(left).toEqual([on('2027-02-01', '08:00-09:00'), on('2027-02-01', '10:15-12:00'), other]);
	expect(left[2]).toBe(other);
	expect(cut(open, '2027-02-01T07:00', '2027-02-02T09:00')).toEqual([on('2027-02-02', '09:00-12:00')]);
	expect(cut(open, '2027-02-01T12:00', '2027-02-02T08:00')).toEqual(open);
	expect(cut(open, '2027-02-01T10:00', '2027-02-01T10:00')).toEqual(open);
});

test('the rest of a night after midnight belongs to the date after', () => {
	const night = [on('2027-02-01', '22:00-02:00')];
	expect(cut(night, '2027-02-01T23:00', '2027-02-02T01:00')).toEqual([
		on('2027-02-01', '22:00-23:00'),
		on('2027-02-02', '01:00-02:00')
	]);
	expect(cut(night, '2027-02-02T00:00', '2027-02-02T03:00')).toEqual([on('2027-02-01', '22:00-24:00')]);
});
