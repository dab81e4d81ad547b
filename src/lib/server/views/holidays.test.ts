import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { type LocalDate, isLocalDate } from '$lib/core/calendar/local-date';
import { fillRange, holidayRows, statutoryRows, treatmentMatrix } from './holidays';

const on = (date: string) => date as LocalDate;
const rollout = rolloutOf({
	schedules: [
		{ id: 'day', name: 'Days', holidays: { public: 'closed', 'half-day': ['08:00-12:00'] } },
		{ id: 'night' }
	],
	holidays: {
		days: [
			{ date: on('2027-05-31'), name: 'Memorial Day', kind: 'public' },
			{ date: on('2027-01-01'), kind: 'public' },
			{ date: on('2027-05-31'), name: 'Defrost', kind: 'shutdown' }
		]
	}
});

test('rows stand by date, keep their places, and tell which entry of a repeated date counts', () => {
	expect(holidayRows(rollout)).toMatchObject([
		{ place: 1, date: '2027-01-01', weekday: 'Friday', standing: 'once', isInHorizon: false },
		{ place: 0, date: '2027-05-31', weekday: 'Monday', standing: 'counts', isInHorizon: true },
		{ place: 2, date: '2027-05-31', name: 'Defrost', standing: 'ignored', isInHorizon: true }
	]);
});

test('the matrix tells what is undecided from what is closed', () => {
	expect(treatmentMatrix(rollout, {})).toMatchObject({
		kinds: ['public', 'shutdown', 'half-day'],
		rows: [
			{ name: 'Days', treatments: ['closed', null, ['08:00-12:00']], byKind: { public: 'closed' } },
			{ name: 'night', treatments: [null, null, null], byKind: {} }
		]
	});
});

test('an official day is missing only while its date is not listed, and is listed as the entry that counts', () => {
	const days = [
		{ date: on('2027-05-31'), name: 'Memorial Day', isSubstitute: false },
		{ date: on('2027-07-05'), name: 'Independence Day', isSubstitute: true }
	];
	expect(statutoryRows(days, rollout).map(({ listedAs }) => listedAs)).toEqual(['Memorial Day', null]);
});

test('dates to fill are the horizon where none, wrong or too many are asked for', () => {
	const { horizon } = rollout;
	expect(fillRange(rollout, null, null, isLocalDate)).toEqual(horizon);
	expect(fillRange(rollout, '2027-02-30', '2028-01-01', isLocalDate)).toEqual({
		from: horizon.from,
		until: '2028-01-01'
	});
	expect(fillRange(rollout, '2028-01-01', '2027-01-01', isLocalDate)).toEqual(horizon);
	expect(fillRange(rollout, '2027-01-01', '2037-01-02', isLocalDate)).toEqual(horizon);
	expect(fillRange(rollout, '2027-01-01', '2036-12-31', isLocalDate).until).toBe('2036-12-31');
});
