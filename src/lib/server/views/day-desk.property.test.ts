import fc from 'fast-check';
import { expect, test } from 'vitest';
import { epochDayOf, localDate, plusDays } from '$lib/core/calendar/local-date';
import { localDateTimeOf, wallTimeOf } from '$lib/core/calendar/local-date-time';
import { rolloutSchema } from '$lib/core/document/schema';
import { judgeMove } from '$lib/core/enrollment/judge';
import { EnrollmentModel } from '$lib/core/enrollment/model';
import { planEnrollment } from '$lib/core/enrollment/plan';
import { smallPlan, smallTerms } from '../../../../tests/support/small-plans';
import { paredFor } from './day-desk';

test('a move is judged by the pared rollout as by the whole one', () => {
	let refused = 0;
	let valid = 0;
	fc.assert(
		fc.property(smallTerms({ people: 9, stations: 3 }), fc.infiniteStream(fc.nat()), (terms, stream) => {
			const draw = (below: number): number => Number(stream.next().value) % below;
			const read = rolloutSchema.parse(smallPlan(terms));
			const plan = planEnrollment(read, { seconds: 0.2, seed: 1 });
			const rollout = {
				...read,
				enrollment: {
					...read.enrollment,
					bookings: [
						...read.enrollment.bookings,
						...plan.bookings
							.filter(({ person }) => !read.enrollment.bookings.some((other) => other.person === person))
							.map((booking) => ({ ...booking, fixed: false, toldOn: null, toldOf: null }))
					]
				}
			};
			const { stations, bookings, gridMinutes } = rollout.enrollment;
			const dates = stations.flatMap(({ open }) => open.map(({ date }) => date));
			const date = dates[draw(dates.length)] ?? rollout.horizon.from;
			const whole = new EnrollmentModel(rollout);
			const pared = new EnrollmentModel(paredFor(whole, localDate(date), new Set(rollout.people.map(({ id }) => id))));
			for (let count = 0; count < 12; count++) {
				const person = rollout.people[draw(rollout.people.length)];
				const other = bookings[draw(Math.max(1, bookings.length))];
				const isBeside = other !== undefined && draw(2) === 0;
				const near = other ? wallTimeOf(other.start) : undefined;
				const minute = draw(Math.ceil(2880 / gridMinutes)) * gridMinutes;
				const start =
					isBeside && near && near.day >= epochDayOf(date) && near.day <= plusDays(epochDayOf(date), 1)
						? localDateTimeOf({ day: near.day, minute: Math.max(0, near.minute + draw(5) * gridMinutes) })
						: localDateTimeOf({ day: epochDayOf(date), minute });
				const station = stations[draw(stations.length)];
				if (!person || !station) continue;
				const minutes = whole.minutesOf(person) ?? 5;
				const moved = { person: person.id, station: station.id, lane: 1 + draw(2), start, minutes };
				const expected = judgeMove(whole, bookings, moved);
				if (expected.length > 0) refused++;
				else valid++;
				expect(judgeMove(pared, pared.rollout.enrollment.bookings, moved)).toEqual(expected);
			}
		}),
		{ numRuns: 40 }
	);
	expect(refused).toBeGreaterThan(50);
	expect(valid).toBeGreaterThan(5);
});

test('what cannot decide about a booking stays on the server', () => {
	const rollout = rolloutSchema.parse(smallPlan({ seed: 7, people: 9, stations: 2, isPlain: false }));
	const named = {
		...rollout,
		people: rollout.people.map((person) => ({ ...person, email: 'a@b.example', job: 'Packer', language: 'en' }))
	};
	const pared = paredFor(new EnrollmentModel(named), localDate('2031-01-01'), new Set(['1']));
	expect(pared.people.map(({ id, email, job, language }) => [id, email, job, language])).toEqual([
		['1', null, null, null]
	]);
	expect(JSON.stringify(pared)).not.toContain('a@b.example');
});
