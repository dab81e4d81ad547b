import fc from 'fast-check';
import { expect, test } from 'vitest';
import { poolDate, retentionDocument } from '../../../../tests/support/retention-arbitrary';
import { type LocalDate, localDate } from '../calendar/local-date';
import { readValue } from '../document/read';
import type { Rollout } from '../document/schema';
import { rulePacks } from './packs';
import { retentionOn } from './retention';
import {
	daysToActOn,
	firstWorkingDayAtOrAfter,
	lastWorkingDayAtOrBefore,
	officialWorkingDays,
	weekdaysBut
} from './working-days';

const rollouts = retentionDocument.map((document): Rollout => {
	const read = readValue(document, { regimes: rulePacks.keys() });
	if (!read.ok) throw new Error(read.faults.map((one) => one.message).join('\n'));
	return read.value.rollout;
});
const date = poolDate.map(localDate);
const dates = fc.tuple(date, date).map(([a, b]): [LocalDate, LocalDate] => (a <= b ? [a, b] : [b, a]));

function withPrivacy(rollout: Rollout, parts: Partial<Rollout['privacy']>): Rollout {
	return { ...rollout, privacy: { ...rollout.privacy, ...parts } };
}

test('the earliest candidate governs, and every candidate runs from its trigger date', () => {
	fc.assert(
		fc.property(rollouts, date, (rollout, on) => {
			for (const template of retentionOn(rollout, on).templates) {
				const earliest = template.candidates.map(({ eraseBy }) => eraseBy).sort()[0] ?? null;
				expect(template.eraseBy).toBe(earliest);
				expect(template.candidates.every(({ triggerDate, eraseBy }) => triggerDate <= eraseBy)).toBe(true);
				const governing = template.candidates.filter(
					({ rule, trigger, triggerDate }) =>
						rule === template.rule && trigger === template.trigger && triggerDate === template.triggerDate
				);
				expect(governing).toHaveLength(template.eraseBy === null ? 0 : 1);
			}
		})
	);
});

test('another rule never moves a date back', () => {
	fc.assert(
		fc.property(rollouts, date, fc.constantFrom(...rulePacks.keys()), (rollout, on, pack) => {
			const more = withPrivacy(rollout, { regimes: [...rollout.privacy.regimes, pack] });
			const stricter = retentionOn(more, on).templates;
			for (const [index, { eraseBy }] of retentionOn(rollout, on).templates.entries()) {
				if (eraseBy !== null) expect((stricter[index]?.eraseBy ?? '~') <= eraseBy).toBe(true);
			}
		})
	);
});

test('erased if and only if nothing is left, and what is left only shrinks as days pass', () => {
	fc.assert(
		fc.property(rollouts, dates, (rollout, [earlier, later]) => {
			const then = retentionOn(rollout, earlier).templates;
			for (const [index, template] of retentionOn(rollout, later).templates.entries()) {
				expect(template.state === 'erased').toBe(template.left.length === 0);
				const before = then[index];
				expect(before?.left).toEqual(expect.arrayContaining([...template.left]));
				if (before?.state === 'erased') expect(template.state).toBe('erased');
			}
		})
	);
});

test('without holds and while consent stays the same, a state goes on from kept to due to overdue to erased', () => {
	const order = ['kept', 'due', 'overdue', 'erased'];
	fc.assert(
		fc.property(rollouts, dates, (rollout, [earlier, later]) => {
			const consents = rollout.privacy.consents.filter((entry) => entry.on <= earlier);
			const steady = withPrivacy(rollout, { holds: [], consents });
			const then = retentionOn(steady, earlier).templates;
			for (const [index, template] of retentionOn(steady, later).templates.entries()) {
				expect(template.candidates).toEqual(then[index]?.candidates);
				expect(order.indexOf(template.state)).toBeGreaterThanOrEqual(order.indexOf(then[index]?.state ?? ''));
			}
		})
	);
});

test('entries dated after the day change nothing but that they are told', () => {
	fc.assert(
		fc.property(rollouts, date, (rollout, on) => {
			const known = withPrivacy(rollout, { consents: rollout.privacy.consents.filter((entry) => entry.on <= on) });
			const all = retentionOn(rollout, on);
			expect({
				...all,
				consentProblems: all.consentProblems.filter(({ code }) => code !== 'consent-in-future')
			}).toEqual(retentionOn(known, on));
		})
	);
});

test('the order of lists says nothing, but for consent entries of one date', () => {
	fc.assert(
		fc.property(rollouts, date, (rollout, on) => {
			const { privacy } = rollout;
			const turned = withPrivacy(
				{ ...rollout, people: rollout.people.toReversed() },
				{
					regimes: privacy.regimes.toReversed(),
					notices: privacy.notices.toReversed(),
					templates: privacy.templates.toReversed(),
					holds: privacy.holds.toReversed(),
					consents: privacy.consents.toSorted((a, b) => (a.on > b.on ? -1 : a.on < b.on ? 1 : 0))
				}
			);
			const [a, b] = [retentionOn(rollout, on), retentionOn(turned, on)];
			expect(b.templates.toReversed()).toEqual(a.templates);
			const key = ({ code, person }: { code: string; person: string | null }) => `${code} ${person ?? ''}`;
			expect(b.consentProblems.map(key).sort()).toEqual(a.consentProblems.map(key).sort());
		})
	);
});

test('the working day found is the nearest one on its side', () => {
	const off = fc.array(date, { maxLength: 12 });
	fc.assert(
		fc.property(date, off, (day, holidays) => {
			const isWorkingDay = weekdaysBut(holidays);
			const before = lastWorkingDayAtOrBefore(day, isWorkingDay);
			const after = firstWorkingDayAtOrAfter(day, isWorkingDay);
			expect(before <= day && day <= after).toBe(true);
			for (const found of [before, after]) expect(holidays).not.toContain(found);
			// Asked again from where it ended, it stays: and from the other side nothing lies between.
			expect(lastWorkingDayAtOrBefore(before, isWorkingDay)).toBe(before);
			if (before !== day) expect(firstWorkingDayAtOrAfter(before, isWorkingDay)).toBe(before);
			expect(before === day).toBe(after === day);
		})
	);
});

test('a half day or a shutdown brings the day to act forward and puts no deadline off', () => {
	const friday = localDate('2027-12-24');
	for (const kind of ['half-day', 'shutdown']) {
		const holidays = [{ date: friday, name: null, kind }];
		expect(lastWorkingDayAtOrBefore(friday, daysToActOn(holidays))).toBe('2027-12-23');
		expect(firstWorkingDayAtOrAfter(friday, officialWorkingDays(holidays))).toBe(friday);
	}
	const publicHoliday = [{ date: friday, name: null, kind: 'public' }];
	expect(firstWorkingDayAtOrAfter(friday, officialWorkingDays(publicHoliday))).toBe('2027-12-27');
});
