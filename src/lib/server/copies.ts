import { todayAt } from './clock';
import { needRollout } from './open-rollouts';
import { fault } from '../core/kernel/fault';
import { isLocalDate } from '../core/calendar/local-date';
import { type Outcome, refuse } from './outcome';
import type { CopyRow } from './store/copy-repository';
import { store } from './store/current';

/** Exports and lists in which no person stands. */
const withoutPeople: ReadonlySet<string> = new Set([
	...['holiday-calendar', 'schedule-calendars'],
	...['areas', 'controllers', 'doors', 'holidays', 'profiles', 'readers', 'schedules', 'stations', 'waves']
]);

/**
 * Notes that a file with people in it was taken out of the program, so that whoever removes people knows where else they
 * stand. `name`: the export or list, `what` it is in words.
 */
export function noteCopy(rollout: string, name: string, what: string, file: string, who: string): void {
	if (withoutPeople.has(name)) return;
	store().copies.add(rollout, { at: new Date().toISOString(), who, what, file });
}

/** Copies that were taken, the latest first. */
export function listCopies(rollout: string): readonly CopyRow[] {
	return store().copies.list(rollout);
}

/** Notes that a copy is no more, on a day that is not ahead. */
export function destroyCopy(rollout: string, number: number, on: string): Outcome<null> {
	const open = needRollout(rollout);
	if (!open.ok) return open;
	const today = todayAt(open.value.rollout.site.timeZone);
	if (!isLocalDate(on) || on > today) {
		return refuse('invalid', fault(['on'], on, `a date not after today, ${today}`));
	}
	if (store().copies.setDestroyed(rollout, number, on)) return { ok: true, value: null };
	return refuse('not-found', fault(['copy'], number, 'the number of a copy'));
}
