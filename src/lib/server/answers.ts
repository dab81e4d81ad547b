import { createHash } from 'node:crypto';
import { answerNames, findAnswer } from '../core/answers';
import { type Answer, jsonOf } from '../core/answers/define-answer';
import { readRolloutValue } from '../core/answers/support/read-rollout';
import { canonicalJson } from '../core/document/canonical';
import { faultsOfIssues } from '../core/document/faults-of-issues';
import type { Rollout } from '../core/document/schema';
import { fieldOf } from '../core/document/walk';
import { fault } from '../core/kernel/fault';
import { nearestName } from '../core/kernel/nearest';
import type { Result } from '../core/kernel/result';
import { runQuestion } from './jobs/run-question';
import { type OpenRollout, needRollout } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';

/**
 * Answers already given, by the state of the rollout that they were asked of: a changed rollout is another object, and
 * what belonged to the old one goes with it.
 */
const given = new WeakMap<Rollout, Map<string, Promise<Result<unknown>>>>();

/** The question of a name, with a fault that names the nearest where there is none. */
export async function needQuestion(name: string): Promise<Outcome<Answer<unknown, unknown>>> {
	const question = await findAnswer(name);
	if (question) return { ok: true, value: question };
	const expected = `one of the questions ${answerNames.join(', ')}`;
	return refuse('not-found', fault(['answer'], name, expected, nearestName(name, answerNames)));
}

/**
 * Asks a question of a rollout by its name, as the API does. Fault paths are those of the parameters. Where another
 * rollout is a parameter (`with`), it may be the id of one that is kept here, or a whole document.
 */
export async function answer(id: string, name: string, params: unknown): Promise<Outcome<Answered>> {
	const open = needRollout(id);
	if (!open.ok) return open;
	const question = await needQuestion(name);
	if (!question.ok) return question;
	const other = readOther(fieldOf(params, 'with'));
	if (!other.ok) return other;
	const given = await ask(
		open.value,
		question.value,
		other.value ? { ...(params as object), with: other.value } : params
	);
	return given.ok ? { ok: true, value: { json: jsonOf(question.value, given.value) } } : given;
}

/** An answer as the text of its JSON, in pieces. */
export interface Answered {
	readonly json: Iterable<string>;
}

/** Asks a question of a rollout; the same question of the same state is worked out once. */
export async function ask<Params, Value>(
	open: OpenRollout,
	question: Answer<Params, Value>,
	params: unknown
): Promise<Outcome<Value>> {
	const parsed = question.params.safeParse(params);
	if (!parsed.success) return refuse('invalid', faultsOfIssues(params, parsed.error.issues));
	const key = `${question.name} ${shortened(canonicalJson(parsed.data))}`;
	const answers = given.get(open.rollout) ?? new Map<string, Promise<Result<unknown>>>();
	given.set(open.rollout, answers);
	let result = answers.get(key) as Promise<Result<Value>> | undefined;
	if (!result) {
		result = runQuestion(question, open.rollout, parsed.data);
		answers.set(key, result);
		// A failure is not kept: it may be gone at the next try.
		result.catch(() => answers.delete(key));
	}
	return outcomeOf(await result);
}

/** A whole document among the parameters would make a long key. */
function shortened(text: string): string {
	return text.length < 1000 ? text : createHash('sha256').update(text).digest('hex');
}

function readOther(other: unknown): Outcome<Rollout | undefined> {
	if (other === undefined || other === null) return { ok: true, value: undefined };
	if (typeof other === 'string') {
		const open = needRollout(other);
		return open.ok
			? { ok: true, value: open.value.rollout }
			: refuse(
					'invalid',
					open.faults.map((one) => ({ ...one, path: '$.with' }))
				);
	}
	const read = readRolloutValue(other);
	if (read.ok) return { ok: true, value: read.value.rollout };
	return refuse(
		'invalid',
		read.faults.map((one) => ({ ...one, path: `$.with${one.path.slice(1)}` }))
	);
}
