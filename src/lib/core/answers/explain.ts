import { z } from 'zod';
import { type Explanation, explainAccess } from '../access/explain';
import { explanationNotes, explanationSentence, momentWords, routeWords } from '../access/explain-sentence';
import type { LocalDateTime } from '../calendar/local-date-time';
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
	text(explanation, rollout, asked) {
		const { because, blockedBy, nextAllowed, allowed } = explanation;
		const further = [
			...because.slice(1).map((one) => explanationSentence(rollout, asked, { ...explanation, because: [one] })),
			...blockedBy.slice(1).map(({ assignment, detail }) => `Nor does assignment ${assignment ?? ''}: ${detail}`)
		];
		const next = nextAllowed
			? `Next possible on ${momentWords(nextAllowed)}, ${nextAllowed}.`
			: 'Not possible from then on until the horizon ends.';
		const route = routeWords(rollout, explanation);
		return [
			explanationSentence(rollout, asked, explanation),
			...further.map((line) => `  ${line}`),
			...explanationNotes(rollout, asked.at),
			...(route === null ? [] : [route]),
			...(allowed ? [] : [next])
		].join('\n');
	}
});
