import fc from 'fast-check';
import { expect, it } from 'vitest';
import { personDayOf } from '../../src/lib/core/access/person-day';
import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';
import type { LocalDate } from '../../src/lib/core/calendar/local-date';
import { contains } from '../../src/lib/core/calendar/spans';
import { shownAt } from '../../src/lib/charts/day-clock';
import { dayReachOf } from '../../src/lib/server/views/day-reach';
import { AccessOracle } from '../oracles/access-oracle';
import { all } from '../oracles/plain-rollout';
import { smallRollouts } from '../support/small-rollouts';

const numRuns = Number(process.env['AGREEMENT_RUNS'] ?? 30);
const seed = Number(process.env['AGREEMENT_SEED'] ?? 20_270_104);

it('what a person can reach on a date agrees at every minute of it with an evaluation minute by minute', () => {
	fc.assert(
		fc.property(smallRollouts(), fc.nat(12), (document, at) => {
			const read = readRolloutValue(document);
			if (!read.ok) throw new Error(read.faults[0]?.message);
			const oracle = new AccessOracle(document);
			const dates = oracle.time.dates.filter((date) => date >= document.horizon.from && date <= document.horizon.until);
			const date = dates[at % dates.length] as LocalDate;
			const first = oracle.time.firstMinuteOf(date);
			const next = oracle.time.firstMinuteOf(oracle.time.dates[oracle.time.indexOf(date) + 1] ?? '');
			for (const person of read.value.rollout.people) {
				const plain = all(document.people).find(({ id }) => id === person.id);
				if (!plain) throw new Error('a person is lost');
				const day = personDayOf(read.value.rollout, person, date);
				expect(day.range.to - day.range.from).toBe(60 * Math.max(0, next - first));
				let before = '';
				for (let minute = first; minute < next; minute++) {
					const instant = day.range.from + 60 * (minute - first);
					const reached = day.areas.filter(({ spans }) => contains(spans, instant)).map(({ area }) => area);
					const expected = all(document.areas).filter(({ id }) => oracle.canReach(plain, id, minute));
					expect(reached).toEqual(expected.map(({ id }) => id));
					const now = reached.join('\n');
					if (minute > first) expect(day.changes.includes(instant)).toBe(now !== before);
					before = now;
				}
				// Shifts that are checked: what is missing on this date is what the evaluation finds uncovered on it.
				const missed = day.shifts
					.filter(({ isChecked }) => isChecked)
					.flatMap(({ missing }) => missing.flatMap(({ spans }) => spans));
				const shifts = oracle.checkedShifts(plain);
				for (let minute = first; minute < next; minute++) {
					const isMissed = missed.some(
						({ from, to }) =>
							from <= day.range.from + 60 * (minute - first) && day.range.from + 60 * (minute - first) < to
					);
					const isUncovered = shifts.some(
						({ from, to }) =>
							from <= minute &&
							minute < to &&
							all(plain.workAreas).some((area) => !oracle.canReach(plain, area, minute))
					);
					expect(isMissed).toBe(isUncovered);
				}
			}
		}),
		{ numRuns, seed }
	);
}, 600_000);

it('the clock of a date shows at every minute what a general calendar library shows, and says which times come twice', () => {
	fc.assert(
		fc.property(smallRollouts(), fc.nat(12), (document, at) => {
			const read = readRolloutValue(document);
			const [person] = read.ok ? read.value.rollout.people : [];
			if (!read.ok || !person) return;
			// All time arithmetic of the oracle is that of Temporal.
			const { time } = new AccessOracle(document);
			const dates = time.dates.filter((date) => date >= document.horizon.from && date <= document.horizon.until);
			const date = dates[at % dates.length] ?? '';
			const { clock } = dayReachOf(read.value.rollout, person, `${date}T08:00` as never, false);
			const first = time.firstMinuteOf(date);
			const shown: { readonly text: string; readonly turn: ReturnType<typeof shownAt>['turn'] }[] = [];
			for (let minute = 0; minute * 60 < clock.length; minute++) {
				const text = time.textOf(first + minute);
				const { date: day, time: clockTime, offset, turn } = shownAt(clock, minute * 60);
				expect(text.startsWith(`${day}T${clockTime}`)).toBe(true);
				expect(text.endsWith(offset.replace('UTC', '')) || text.endsWith('Z')).toBe(true);
				expect(turn !== null).toBe(time.fateOf(day, clockTime) === 'repeated');
				shown.push({ text: `${day}T${clockTime}`, turn });
			}
			for (const [place, { text, turn }] of shown.entries()) {
				const other = shown.findIndex((one, elsewhere) => elsewhere !== place && one.text === text);
				if (other >= 0) expect(turn).toBe(other > place ? 'first' : 'second');
			}
		}),
		{ numRuns, seed }
	);
}, 600_000);
