// Who may import whom. `npm run lint` holds the whole tree to this; tests/structure/imports.test.ts proves that it bites.

/** The core from left to right: what stands further left is more general, and knows nothing of what stands right of it. */
const order = [
	['kernel'],
	['calendar'],
	['document'],
	['access'],
	['enrollment', 'privacy', 'roster'],
	['checks', 'readiness', 'edits', 'exports'],
	['mends'],
	['answers']
];

/** Tests may look wherever they must to set up a case. */
const test = '\\.test\\.ts$';

/** @param {readonly string[]} folders */
const inCore = (folders) => `^src/lib/core/(${folders.join('|')})/`;

const leftToRight = order.slice(0, -1).map((folders, step) => ({
	name: `core-order-${folders.join('-')}`,
	comment:
		`${folders.join(', ')} must not know ${order
			.slice(step + 1)
			.flat()
			.join(', ')}: what is more general would then ` +
		'depend on what is built on it, and neither could be understood or tested alone. Move the shared part left.',
	severity: 'error',
	from: { path: inCore(folders), pathNot: test },
	to: { path: inCore(order.slice(step + 1).flat()) }
}));

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
	forbidden: [
		...leftToRight,
		{
			name: 'core-siblings',
			comment:
				'enrollment, privacy and roster are three fields that meet only in checks, readiness, edits and exports: ' +
				'a rule of one must not change with the insides of another. What two of them need belongs into access or document.',
			severity: 'error',
			from: { path: inCore(['enrollment', 'privacy', 'roster']), pathNot: test },
			// $1 is the folder that matched above.
			to: { path: inCore(['enrollment', 'privacy', 'roster']), pathNot: '^src/lib/core/$1/' }
		},
		{
			name: 'core-is-alone',
			comment:
				'The core is called by the command line, the server and the browser alike, so it must not know any of them.',
			severity: 'error',
			from: { path: '^src/lib/core/', pathNot: test },
			to: { path: '^src/', pathNot: '^src/lib/core/' }
		},
		{
			name: 'core-is-pure',
			comment:
				'The core gives the same answer for the same document, anywhere. Files, the network, the clock and the database ' +
				'belong to the command line and the server, which hand their contents in as values.',
			severity: 'error',
			from: { path: '^src/lib/core/', pathNot: test },
			to: { dependencyTypes: ['core'] }
		},
		{
			name: 'core-without-framework',
			comment:
				'The core must outlive the framework of the screens and the database of the server, and run without them.',
			severity: 'error',
			from: { path: '^src/lib/core/', pathNot: test },
			to: {
				path: '^(\\$app|\\$env|svelte|@sveltejs|better-sqlite3)(/|$)|node_modules/(svelte|@sveltejs|better-sqlite3)/'
			}
		},
		{
			name: 'charts-are-geometry',
			comment:
				'Charts are plain functions from values to shapes; components draw them. They know the core and nothing else.',
			severity: 'error',
			from: { path: '^src/lib/charts/', pathNot: test },
			to: { path: '^src/', pathNot: '^src/lib/(charts|core)/' }
		},
		{
			name: 'components-without-server',
			comment:
				'A component runs in the browser: it takes data and callbacks. What the server knows reaches it through the ' +
				'load function of its sheet.',
			severity: 'error',
			from: { path: '^src/lib/components/', pathNot: test },
			to: { path: '^src/(lib/server|routes|cli|tools)/' }
		},
		{
			name: 'browser-without-server',
			comment:
				'This part of a sheet runs in the browser too. Database and secrets stay in +page.server.ts and +server.ts.',
			severity: 'error',
			from: { path: ['^src/routes/.*\\.svelte$', '^src/routes/.*\\+(page|layout)\\.ts$'] },
			to: { path: '^src/lib/server/' }
		},
		{
			name: 'server-without-screens',
			comment:
				'The server part answers any client; if it knew the screens or the command line, these would be welded together.',
			severity: 'error',
			from: { path: '^src/lib/server/', pathNot: test },
			to: { path: ['^src/(routes|cli)/', '\\.svelte$'] }
		},
		{
			name: 'cli-is-thin',
			comment: 'The command line is thin over core/answers, so that it cannot disagree with the app.',
			severity: 'error',
			from: { path: '^src/cli/', pathNot: test },
			to: { path: '^src/(routes|lib/(server|components|charts))/' }
		},
		{
			name: 'source-without-tests',
			comment: 'What ships must not depend on what only tests it.',
			severity: 'error',
			from: { path: '^src/', pathNot: test },
			to: { path: `^tests/|${test}` }
		},
		{
			name: 'oracle-is-independent',
			comment:
				'An oracle judges the core, so it must not share its code: it would repeat its mistakes. Types are welcome.',
			severity: 'error',
			from: { path: '^tests/oracles/', pathNot: test },
			to: { path: '^src/', dependencyTypesNot: ['type-only', 'type-import'] }
		},
		{
			name: 'no-cycle',
			comment: 'Modules in a cycle are one module in disguise: none can be read, tested or moved alone.',
			severity: 'error',
			from: {},
			to: { circular: true }
		},
		{
			name: 'resolvable',
			comment: 'What cannot be found cannot be judged by the other rules either.',
			severity: 'error',
			from: {},
			to: { couldNotResolve: true, pathNot: '^(\\./\\$types|\\$app/|\\$env/|\\$service-worker)' }
		},
		{
			name: 'declared',
			comment: 'A package that package.json does not name is there by luck, and gone with the next update of another.',
			severity: 'error',
			from: { path: '^(src|tests)/' },
			to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] }
		}
	],
	options: {
		doNotFollow: { path: 'node_modules' },
		exclude: { path: '^(build|\\.svelte-kit|data)/' },
		// Types count: a file that needs another's types knows it as well as one that calls it.
		tsPreCompilationDeps: true,
		webpackConfig: { fileName: `${__dirname}/src/tools/alias.cjs` },
		enhancedResolveOptions: {
			conditionNames: ['svelte', 'import', 'node', 'default', 'types'],
			exportsFields: ['exports']
		}
	}
};
