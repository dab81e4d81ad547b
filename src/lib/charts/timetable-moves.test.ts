import { expect, test } from 'vitest';
import { timetable } from './timetable';
import { fittingStarts, nearestOnGrid, nextFitting, spotAt, stepped } from './timetable-moves';

const stations = [
	{ id: 'lobby', name: 'Lobby', lanes: 2, turnoverMinutes: 2, open: ['08:00-10:00'] },
	{ id: 'annex', name: 'Annex', lanes: 1, turnoverMinutes: 0, open: ['23:00-01:00'] }
];
const day = timetable(stations, []);
const at = (station: string, lane: number, start: number) => ({ station, lane, start });

test('a step in time goes to the next place on the grid, also from a place off it', () => {
	expect(stepped(day, at('lobby', 1, 500), 10, 5, 'later').start).toBe(505);
	expect(stepped(day, at('lobby', 1, 503), 10, 5, 'earlier').start).toBe(500);
	expect(stepped(day, at('lobby', 1, 503), 10, 5, 'later').start).toBe(505);
});

test('the grid begins anew at midnight where it does not divide the day', () => {
	expect(stepped(day, at('annex', 1, 1435), 10, 7, 'later').start).toBe(1440);
	expect(stepped(day, at('annex', 1, 1440), 10, 7, 'later').start).toBe(1447);
	expect(nearestOnGrid(1438, 7)).toBe(1440);
});

test('a step never leaves the hours and lanes that are drawn', () => {
	expect([day.from, day.to]).toEqual([480, 1500]);
	const top = at('lobby', 1, 480);
	expect(stepped(day, top, 10, 5, 'earlier')).toBe(top);
	expect(stepped(day, top, 10, 5, 'lane-before')).toBe(top);
	const last = at('annex', 1, 1490);
	expect(stepped(day, last, 10, 5, 'later')).toBe(last);
	expect(stepped(day, last, 10, 5, 'lane-after')).toBe(last);
});

test('a step to the side goes from lane to lane and on to the next station', () => {
	expect(stepped(day, at('lobby', 1, 600), 10, 5, 'lane-after')).toEqual(at('lobby', 2, 600));
	expect(stepped(day, at('lobby', 2, 600), 10, 5, 'lane-after')).toEqual(at('annex', 1, 600));
	expect(stepped(day, at('annex', 1, 600), 10, 5, 'lane-before')).toEqual(at('lobby', 2, 600));
});

test('a point is read as the nearest place on the grid, inside the hours', () => {
	expect(spotAt(day, 1, 0.0147, 10, 5)).toEqual(at('lobby', 2, 495));
	expect(spotAt(day, 0, -3, 10, 5)).toEqual(at('lobby', 1, 480));
	expect(spotAt(day, 2, 2, 10, 5)).toEqual(at('annex', 1, 1490));
	expect(spotAt(day, 3, 0.5, 10, 5)).toBeUndefined();
});

test('the next that fits is found in either direction, and all of a lane', () => {
	const fits = ({ start }: { start: number }) => start === 500 || start === 560;
	expect(nextFitting(day, at('lobby', 1, 520), 10, 5, 'later', fits)?.start).toBe(560);
	expect(nextFitting(day, at('lobby', 1, 520), 10, 5, 'earlier', fits)?.start).toBe(500);
	expect(nextFitting(day, at('lobby', 1, 560), 10, 5, 'later', fits)).toBeUndefined();
	expect(fittingStarts(day, at('lobby', 1, 0), 10, 5, fits)).toEqual([500, 560]);
});
