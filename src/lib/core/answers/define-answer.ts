import type { z } from 'zod';
import type { Rollout } from '../document/schema';
import type { Result } from '../kernel/result';
import type { Work } from '../kernel/work';

/**
 * What a caller keeps between questions about successive states of one rollout, by names that questions choose: after a small
 * change much of it is still true. Kept for the latest state only.
 */
export type Memory = Map<string, unknown>;

/**
 * A question about a rollout: one file in this folder, its default export made by `defineAnswer`. The command line, the
 * API and the screens run it through here and therefore cannot disagree.
 */
export interface Answer<Params, Value> {
	/** The command's name and the last part of its address. */
	readonly name: string;
	/** One sentence for help pages. */
	readonly summary: string;
	/** What it takes beside the document; every key is an option `--key` of the command. Descriptions become help. */
	readonly params: z.ZodType<Params>;
	/**
	 * Answers; may load heavy parts on demand, hence a promise. Refuses with faults when the parameters do not fit the
	 * rollout (an unknown person, say). Their paths are those of the parameters: `$.person`. `memory` makes answers quicker and
	 * no other.
	 */
	run(rollout: Rollout, params: Params, work: Work, memory?: Memory): Promise<Result<Value>>;
	/** Worked on for seconds by design, whatever the size of the rollout: asked in a thread of its own, watched and stopped early. */
	readonly isLong?: true;
	/** True when something of severity error was found: the command then ends with status 1. */
	isBad(value: Value): boolean;
	/**
	 * The answer as the text of its JSON, in pieces: for values that are kept shorter than they are told, or are too long for
	 * one text. Left out, it is the value itself.
	 */
	json?(value: Value): Iterable<string>;
	/** The answer for a person: sentences and aligned tables, lines separated by line feeds. */
	text(value: Value, rollout: Rollout, params: Params): string;
}

/** Gives a question its types; the identity otherwise. */
export function defineAnswer<Params, Value>(answer: Answer<Params, Value>): Answer<Params, Value> {
	return answer;
}

/** An answer as the text of its JSON, in pieces of any length. */
export function jsonOf<Value>(answer: Pick<Answer<unknown, Value>, 'json'>, value: Value): Iterable<string> {
	return answer.json ? answer.json(value) : [JSON.stringify(value)];
}
