import { z } from 'zod';
import { type Explanation, explainAccess } from '../access/explain';
import type { LocalDateTime } from '../calendar/local-date-time';
import { nameOf } from '../document/names';
import { ok, refused } from '../kernel/result';
import { defineAnswer } from './define-answer';
import { dateTimeParam, doorId, personId, unknownId } from './support/params';

interface Params {
	readonly person: string;
	readonly door: string;
	readonly at: LocalDateTime;
}

export default defineAnswer<Params, Explanation>({
	name: 'explain',
	summary: 'Why a person may, or may not, open a door at a moment; by which route; and when next.',
	params: z.strictObject({
		person: personId,
		door: doorId,
		at: dateTimeParam.describe('Local date and time at the site, like 2027-01-11T05:45')
	}),
	run(rollout, { person: id, door, at }) {
		const person = rollout.people.find((one) => one.id === id);
		const faults = [
			...unknownId('person', id, 'a person', rollout.people),
			...unknownId('door', door, 'a door', rollout.doors)
		];
		if (!person || faults.length > 0) return Promise.resolve(refused(faults));
		return Promise.resolve(ok(explainAccess(rollout, person, door, at)));
	},
	isBad: () => false,
	text({ allowed, because, blockedBy, route, nextAllowed }, rollout) {
		const lines = [allowed ? 'Yes, the door may be opened.' : 'No, the door may not be opened.'];
		for (const one of because) {
			const group = nameOf(rollout.doorGroups, one.doorGroup);
			const schedule = nameOf(rollout.schedules, one.schedule);
			const profile = nameOf(rollout.accessProfiles, one.accessProfile);
			lines.push(
				`  Because assignment ${one.assignment} gives profile ${profile}: ${group} on schedule ${schedule}, ${one.stretch} of ${one.date}.`
			);
		}
		for (const { assignment, reason, detail } of blockedBy) {
			lines.push(`  ${reason}${assignment === undefined ? '' : ` (assignment ${assignment})`}: ${detail}`);
		}
		if (route) lines.push(`Route: ${route.map((door) => nameOf(rollout.doors, door)).join(' > ')}.`);
		if (!allowed)
			lines.push(nextAllowed ? `Next possible: ${nextAllowed}.` : 'Not possible again before the horizon ends.');
		return lines.join('\n');
	}
});
