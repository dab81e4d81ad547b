import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';
import { purityRules } from './src/tools/purity-rules.mjs';

export default ts.config(
	{ ignores: ['build/', '.svelte-kit/', 'data/', 'node_modules/', 'demo-data/'] },
	{ linterOptions: { reportUnusedDisableDirectives: 'error', noInlineConfig: true } },
	js.configs.recommended,
	ts.configs.strictTypeChecked,
	svelte.configs['flat/recommended'],
	svelte.configs['flat/prettier'],
	{
		languageOptions: {
			globals: { ...globals.browser, ...globals.node },
			parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname }
		}
	},
	{
		rules: {
			'no-console': 'error',
			eqeqeq: 'error',
			'svelte/no-navigation-without-resolve': 'off', // the app is always served at the root of its address
			'no-undef': 'off', // the type checker knows better
			'no-control-regex': 'off', // names and cells from outside are searched for control characters
			'@typescript-eslint/no-explicit-any': 'error',
			'@typescript-eslint/ban-ts-comment': ['error', { 'ts-expect-error': true }],
			'@typescript-eslint/consistent-type-imports': 'error',
			'@typescript-eslint/no-misused-spread': 'off', // splitting text into code points is what it is used for
			'@typescript-eslint/no-unsafe-class-instance-assignment': 'off', // `process` is an event emitter that nobody constructed
			'@typescript-eslint/no-unnecessary-type-parameters': 'off', // a named parameter can be what makes a helper readable
			'@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
			'@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
			'@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
			'@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }]
		}
	},
	{ files: ['src/lib/core/**/*.ts'], ignores: ['**/*.test.ts'], rules: purityRules },
	{
		files: ['**/*.test.ts'],
		rules: {
			'no-restricted-syntax': [
				'error',
				{
					selector:
						'MemberExpression[object.name=/^(it|test|describe)$/][property.name=/^(only|skip|todo|fails|skipIf|runIf)$/]',
					message: 'A test that is switched off, or that switches off the others, tests nothing.'
				}
			]
		}
	},
	{
		// Components are type-checked by svelte-check, which knows the types that the framework makes for each route.
		files: ['**/*.svelte', '**/*.svelte.ts'],
		extends: [ts.configs.disableTypeChecked],
		languageOptions: { parserOptions: { parser: ts.parser, projectService: false, svelteConfig } }
	},
	{
		// Plain programs and settings, checked as JavaScript.
		files: ['**/*.js', '**/*.mjs', '**/*.cjs'],
		extends: [ts.configs.disableTypeChecked],
		rules: { '@typescript-eslint/no-require-imports': 'off' }
	}
);
