import { answerNames, findAnswer } from '../core/answers';
import type { Answer } from '../core/answers/define-answer';
import { canonicalJson } from '../core/document/canonical';
import { faultsOfIssues } from '../core/document/faults-of-issues';
import type { Rollout } from '../core/document/schema';
import { fault } from '../core/kernel/fault';
import { nearestName } from '../core/kernel/nearest';
import type { Result } from '../core/kernel/result';
import { unwatched } from '../core/kernel/work';
import { needRollout, type OpenRollout } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';

/**
 * Answers already given, by the state of the rollout that they were asked of: a changed rollout is another object, and
 * what belonged to the old one goes with it.
 */
const given = new WeakMap<Rollout, Map<string, Promise<Result<unknown>>>>();

/** Asks a question of a rollout by its name, as the API does. Fault paths are those of the parameters. */
export async function answer(id: string, name: string, params: unknown): Promise<Outcome<unknown>> {
	const open = needRollout(id);
	if (!open.ok) return open;
	const question = await findAnswer(name);
	if (!question) {
		const expected = `one of the questions ${answerNames.join(', ')}`;
		return refuse('not-found', fault(['answer'], name, expected, nearestName(name, answerNames)));
	}
	return ask(open.value, question, params);
}

/** Asks a question of a rollout; the same question of the same state is worked out once. */
export async function ask<Params, Value>(
	open: OpenRollout,
	question: Answer<Params, Value>,
	params: unknown
): Promise<Outcome<Value>> {
	const parsed = question.params.safeParse(params);
	if (!parsed.success) return refuse('invalid', ...faultsOfIssues(params, parsed.error.issues));
	const key = `${question.name} ${canonicalJson(parsed.data)}`;
	const answers = given.get(open.rollout) ?? new Map<string, Promise<Result<unknown>>>();
	given.set(open.rollout, answers);
	let result = answers.get(key) as Promise<Result<Value>> | undefined;
	if (!result) {
		result = question.run(open.rollout, parsed.data, unwatched);
		answers.set(key, result);
		// A failure is not kept: it may be gone at the next try.
		result.catch(() => answers.delete(key));
	}
	return outcomeOf(await result);
}
