import { expect, it } from 'vitest';
import { priceOf, sumOf, taking } from './price';

const costs = { stationHour: 40, installerDay: 480, personAwayHour: 30, movedBooking: 5 };

it('prices hours by the minute, days and moved bookings by the piece', () => {
	// By hand: 90 min at 40 an hour are 60; 2 days are 960; 20 min at 30 an hour are 10; 3 bookings are 15.
	const takes = { stationMinutes: 90, installerDays: 2, awayMinutes: 20, movedBookings: 3 };
	expect(priceOf(takes, costs)).toBe(60 + 960 + 10 + 15);
	expect(priceOf(taking({ stationMinutes: 1 }), costs)).toBe(0.67);
});

it('prices a sum as the sum of its parts', () => {
	const [one, other] = [
		taking({ stationMinutes: 30, movedBookings: 1 }),
		taking({ installerDays: 1, stationMinutes: 30 })
	];
	expect(sumOf([one, other])).toEqual({ stationMinutes: 60, installerDays: 1, awayMinutes: 0, movedBookings: 1 });
	expect(priceOf(sumOf([one, other]), costs)).toBe(priceOf(one, costs) + priceOf(other, costs));
});
