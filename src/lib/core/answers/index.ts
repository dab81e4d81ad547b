import { registryOf } from '../kernel/registry';
import type { Answer } from './define-answer';

/** How to load each question: loaded on demand, so that a command starts without what it does not use. */
const loaders = import.meta.glob<{ default: Answer<unknown, unknown> }>([
	'./*.ts',
	'!./*.test.ts',
	'!./index.ts',
	'!./define-answer.ts'
]);

/** The names of all questions, sorted. */
export const answerNames: readonly string[] = Object.keys(loaders)
	.map((file) => file.slice('./'.length, -'.ts'.length))
	.sort();

/** The question of a name; undefined where there is none. */
export async function findAnswer(name: string): Promise<Answer<unknown, unknown> | undefined> {
	const load = loaders[`./${name}.ts`];
	return load ? (await load()).default : undefined;
}

/** Every question, by name: for help pages and the API's description. */
export async function allAnswers(): Promise<ReadonlyMap<string, Answer<unknown, unknown>>> {
	const modules = await Promise.all(Object.entries(loaders).map(async ([file, load]) => [file, await load()] as const));
	return registryOf(Object.fromEntries(modules), (answer) => answer.name);
}
