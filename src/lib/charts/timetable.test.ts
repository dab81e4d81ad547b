import { expect, test } from 'vitest';
import { timetable } from './timetable';

const station = (id: string, lanes = 1, open = ['08:00-12:00']) => ({ id, name: id, lanes, turnoverMinutes: 2, open });
const booking = (person: string, start: number, lane = 1, at = 'lobby', minutes = 8) => ({
	person,
	name: person,
	station: at,
	lane,
	start,
	minutes,
	isFixed: false
});

test('one column for each lane of a station that is open', () => {
	const { columns } = timetable([station('lobby', 2), station('annex', 1, [])], []);
	expect(columns.map((column) => [column.station.id, column.lane])).toEqual([
		['lobby', 1],
		['lobby', 2]
	]);
});

test('the hours reach around stretches and bookings, whole hours', () => {
	const day = timetable([station('lobby', 1, ['13:30-16:10', '08:15-12:00'])], [booking('a', 470)]);
	expect([day.from, day.to]).toEqual([420, 1020]);
	expect(day.columns[0]?.open).toEqual([
		{ from: 495, to: 720 },
		{ from: 810, to: 970 }
	]);
});

test('a stretch past midnight goes on below', () => {
	expect(timetable([station('lobby', 1, ['22:00-02:00'])], []).to).toBe(26 * 60);
});

test('bookings stand in their lane by start', () => {
	const { columns, shortest } = timetable(
		[station('lobby', 2)],
		[booking('b', 540), booking('a', 480), booking('c', 480, 2, 'lobby', 5)]
	);
	expect(columns.map((column) => column.bookings.map((one) => one.person))).toEqual([['a', 'b'], ['c']]);
	expect(shortest).toBe(5);
});

test('a booking in a lane that does not exist, or on a day when the station is shut, is still seen', () => {
	const { columns } = timetable([station('lobby', 1, [])], [booking('a', 480, 2)]);
	expect(columns.map((column) => [column.lane, column.open.length, column.bookings.length])).toEqual([
		[1, 0, 0],
		[2, 0, 1]
	]);
});

test('a day with nothing is drawn as an empty working day', () => {
	expect(timetable([], [])).toEqual({ from: 480, to: 1020, columns: [], shortest: 60 });
});
