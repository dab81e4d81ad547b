import { allAnswers } from '$lib/core/answers';
import { jsonSchemaOf } from '$lib/core/document/json-schema';
import type { PageServerLoad } from './$types';

interface OptionSchema {
	readonly description?: string;
	readonly default?: unknown;
	readonly title?: string;
	readonly type?: string;
}

export const load: PageServerLoad = async () => {
	const answers = await allAnswers();
	return {
		commands: [...answers.values()].map(({ name, summary, params }) => {
			const schema = jsonSchemaOf(params);
			const properties = (schema['properties'] ?? {}) as Readonly<Record<string, OptionSchema>>;
			const required = (schema['required'] ?? []) as readonly string[];
			return {
				name,
				summary,
				// What is no text or number is another document, given as a second file.
				files: Object.entries(properties)
					.filter(([, option]) => option.type === undefined && !('anyOf' in option))
					.map(([, option]) => option.description ?? ''),
				options: Object.entries(properties)
					.filter(([, option]) => option.type !== undefined || 'anyOf' in option)
					.map(([key, option]) => ({
						name: key,
						description: option.description ?? '',
						fallback: option.default === undefined ? null : JSON.stringify(option.default),
						isRequired: required.includes(key) && option.default === undefined
					}))
			};
		})
	};
};
