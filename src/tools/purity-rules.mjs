import { builtinModules } from 'node:module';

// What the core may not touch, each with the reason. `npm run lint` applies it; tests/structure/purity.test.ts proves it.

const clock =
	'The core has no clock: take the date or instant as a parameter, so that the same call gives the same answer.';
const chance = 'The core draws from a seeded generator that it is given, so that a plan or forecast can be repeated.';
const outside = 'The core does no input or output: the command line and the server hand contents in as values.';
const machine =
	'This depends on the language or time zone of the machine; the same document must read the same everywhere.';
const waiting = 'The core measures no time and starts no timers: `Work` tells the time spent, and when to stop.';

/** @type {import('eslint').Linter.RulesRecord} */
export const purityRules = {
	'no-restricted-globals': [
		'error',
		...[
			'fetch',
			'XMLHttpRequest',
			'WebSocket',
			'process',
			'Buffer',
			'require',
			'localStorage',
			'window',
			'navigator'
		].map((name) => ({ name, message: outside })),
		...['performance', 'setTimeout', 'setInterval', 'setImmediate'].map((name) => ({ name, message: waiting })),
		{ name: 'crypto', message: chance }
	],
	'no-restricted-properties': [
		'error',
		{ object: 'Date', property: 'now', message: clock },
		{ object: 'Math', property: 'random', message: chance },
		{ object: 'globalThis', property: 'crypto', message: chance },
		{ object: 'globalThis', property: 'fetch', message: outside },
		{ property: 'localeCompare', message: machine },
		...['toLocaleString', 'toLocaleDateString', 'toLocaleTimeString', 'toLocaleLowerCase', 'toLocaleUpperCase'].map(
			(property) => ({ property, message: machine })
		),
		...['FullYear', 'Month', 'Date', 'Day', 'Hours', 'Minutes', 'Seconds'].map((part) => ({
			property: `get${part}`,
			message: machine
		})),
		{ property: 'getTimezoneOffset', message: machine }
	],
	'no-restricted-syntax': [
		'error',
		{ selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: clock },
		{ selector: "CallExpression[callee.name='Date']", message: clock },
		{ selector: "NewExpression[callee.name='Date'][arguments.length>1]", message: machine }
	],
	'no-restricted-imports': [
		'error',
		{
			paths: builtinModules.map((name) => ({ name, message: outside })),
			patterns: [
				{ group: ['node:*'], message: outside },
				{
					group: ['svelte', 'svelte/*', '@sveltejs/*', '$app/*', '$env/*', 'better-sqlite3'],
					message: 'The core runs without the framework of the screens and the database of the server.'
				}
			]
		}
	]
};
